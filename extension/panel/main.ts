import { editorChannel } from './channel';
import { startPanel } from './panel';

const page = document.getElementById('panel');
if (page) startPanel(editorChannel(window), page);
