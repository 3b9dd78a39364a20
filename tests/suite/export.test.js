const vscode = require('vscode');
const { equal, extension, holds, open, revertAll } = require('./support.js');

describe('the schedule for people', () => {
  let folder;
  before(async () => {
    await extension().activate();
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    folder = vscode.Uri.joinPath(editor.document.uri, '../../issued');
  });
  after(async () => {
    await vscode.workspace.fs.delete(folder, { recursive: true }).then(undefined, () => {});
    await revertAll();
  });

  const read = async (name) => vscode.workspace.fs.readFile(vscode.Uri.joinPath(folder, name));
  const write = (reader, form) =>
    vscode.commands.executeCommand('lotwright.exportSchedule', { reader, form, to: folder.toString() });

  it('is written for its readers, with the caution', async () => {
    await write('everyone', 'html');
    const html = new TextDecoder().decode(await read('everyone.html'));
    holds(html.includes('Room R2: Gala'), 'a page for the room');
    holds(html.includes('calibrated instrument'), 'the caution is there');
    await write('growers', 'workbook');
    const book = await read('grower-larkfield.xlsx');
    equal(String.fromCharCode(book[0], book[1]), 'PK');
  });

  it('leaves a calendar as it is where nothing has changed', async () => {
    await write('packhouse', 'calendar');
    const before = new TextDecoder().decode(await read('packhouse.ics'));
    await write('packhouse', 'calendar');
    equal(new TextDecoder().decode(await read('packhouse.ics')), before);
    holds(before.includes('UID:Orrowby%20Vale'), 'its events are there');
  });
});
