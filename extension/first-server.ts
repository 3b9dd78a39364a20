import path from 'node:path';
import { begunServer } from './begun-server';

/** The first process of the server, begun while the rest of the extension's code is still being read. */
export const firstServer = begunServer(path.join(__dirname, 'server.cjs'));
