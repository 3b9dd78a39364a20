const vscode = require('vscode');
const { equal, extension, holds, open, positionOf, revertAll, until } = require('./support.js');

describe('pinning the weeks found', () => {
  let api;
  let editor;
  let before;
  beforeEach(async () => {
    api = await extension().activate();
    await open('first-season', 'fruit.lotplan.yaml');
    await vscode.commands.executeCommand('lotwright.openTimeline');
    await until('the schedule', () => row('R3-golden')?.pin);
    editor = await open('first-season', 'fruit.lotplan.yaml');
    before = editor.document.getText();
  });
  afterEach(revertAll);

  const row = (key) => api.shownTimeline()?.rows.find((one) => one.key === key);
  const lines = (text) => text.split('\n');
  /** Lines of the text now that are not the old text's, which must all be there in their order. */
  const added = () => {
    const old = lines(before);
    const more = lines(editor.document.getText()).filter((line) => {
      if (old[0] !== line) return true;
      old.shift();
      return false;
    });
    equal(old, [], 'no line is lost or changed');
    return more;
  };
  const undo = async () => {
    await vscode.window.showTextDocument(editor.document);
    await vscode.commands.executeCommand('undo');
    await until('the text as it was', () => editor.document.getText() === before);
    await until('no pin in the timeline', () => row('R3-golden')?.pin);
  };

  it('pins every room without a pin in one edit, which is undone at once', async () => {
    const { weeks, rows } = api.shownTimeline();
    const wanted = rows.filter(({ pin }) => pin);
    equal(wanted.length, 3);
    await vscode.commands.executeCommand('lotwright.pinReleaseWeeks', { confirm: false });
    equal(added().sort(), wanted.map(({ pin }) => `    open: ${pin}`).sort());
    await until('pins in the timeline', () => wanted.every(({ key }) => row(key)?.opens?.pinned));
    for (const { key, pin } of wanted) equal(weeks[row(key).opens.week], pin);
    await undo();
  });

  it('pins the room at the caret', async () => {
    const { pin } = row('R3-golden');
    const at = positionOf(editor.document, 'R3-golden:', 3);
    editor.selection = new vscode.Selection(at, at);
    await vscode.commands.executeCommand('lotwright.pinRoomWeek');
    equal(added(), [`    open: ${pin}`]);
    await until('the pin in the timeline', () => row('R3-golden')?.opens?.pinned);
    await undo();
  });

  it('pins the room whose row in the timeline the menu was opened on', async () => {
    const { pin } = row('R3-golden');
    const context = { webviewSection: 'canPin', fill: 'R3-golden' };
    await vscode.commands.executeCommand('lotwright.pinRoomWeek', context);
    equal(added(), [`    open: ${pin}`]);
    await until('the pin in the timeline', () => row('R3-golden')?.opens?.pinned);
    await undo();
  });

  it("offers the schedule's week over a fill without a pin", async () => {
    const at = positionOf(editor.document, 'R3-golden:', 3);
    const actions = await vscode.commands.executeCommand(
      'vscode.executeCodeActionProvider',
      editor.document.uri,
      new vscode.Range(at, at),
    );
    const action = actions.find(({ title }) => title.startsWith('Pin R3-golden to '));
    holds(action?.edit, actions.map(({ title }) => title).join('; '));
    holds(await vscode.workspace.applyEdit(action.edit), 'the edit is taken');
    await until('the pin in the timeline', () => row('R3-golden')?.opens?.pinned);
    await undo();
  });
});
