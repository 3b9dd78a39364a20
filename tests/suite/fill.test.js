const vscode = require('vscode');
const { equal, extension, holds, open, positionOf, revertAll, until } = require('./support.js');

describe('fills proposed and accepted', () => {
  let editor;
  let whole;
  /** The text without the last two fills: Golden Delicious and Braeburn wait for a room. */
  let before;
  beforeEach(async () => {
    await extension().activate();
    editor = await open('first-season', 'fruit.lotplan.yaml');
    whole = editor.document.getText();
    before = whole.slice(0, whole.indexOf('  R3-golden:'));
    await setText(before);
  });
  afterEach(async () => {
    await setText(whole);
    await revertAll();
  });

  const setText = async (text) => {
    const { document } = editor;
    const all = new vscode.Range(0, 0, document.lineCount, 0);
    const edit = new vscode.WorkspaceEdit();
    edit.replace(document.uri, all, text);
    holds(await vscode.workspace.applyEdit(edit), 'the edit is taken');
  };
  const text = () => editor.document.getText();
  const propose = async () => {
    const rooms = await vscode.commands.executeCommand('lotwright.proposeFills');
    // The page comes up beside the plan, and takes the focus as it does.
    await until('the page', () => page());
    await until('its place', () => vscode.window.tabGroups.all.length > 1);
    await vscode.window.showTextDocument(editor.document, vscode.ViewColumn.One);
    await until('the plan in front', () => vscode.window.activeTextEditor?.document === editor.document);
    editor = await vscode.window.showTextDocument(editor.document, vscode.ViewColumn.One);
    return rooms;
  };
  const page = () => vscode.workspace.textDocuments.find(({ uri }) => uri.scheme === 'lotwright-fills');
  const fills = () => [...text().matchAll(/^ {2}(R\d-[a-z-]+):/gm)].map(([, name]) => name);

  it('proposes in a worker, shows the page, and writes nothing', async () => {
    equal(await propose(), ['R3', 'R4']);
    equal(text(), before);
    holds(page().getText().includes('Without it '), page().getText());
  });

  it('accepts all fills in one edit, which is undone at once', async () => {
    await propose();
    await vscode.commands.executeCommand('lotwright.acceptAllFills');
    equal(fills(), ['R1-gala', 'R2-gala', 'R3-golden-delicious', 'R4-braeburn']);
    holds(text().startsWith(before.trimEnd()), 'all that was written stays');
    await vscode.window.showTextDocument(editor.document, vscode.ViewColumn.One);
    await vscode.commands.executeCommand('undo');
    await until('the text as it was', () => text() === before);
  });

  it('accepts one room by the place of one of its lots, and the other by name', async () => {
    await propose();
    const at = positionOf(editor.document, '  B2:', 3);
    editor.selection = new vscode.Selection(at, at);
    await vscode.commands.executeCommand('lotwright.acceptRoomFill');
    equal(fills(), ['R1-gala', 'R2-gala', 'R4-braeburn']);
    await until('the page with what is left', () => page().getText().includes('no longer possible: R4.'));
    await vscode.commands.executeCommand('lotwright.acceptRoomFill', 'R3');
    equal(fills(), ['R1-gala', 'R2-gala', 'R4-braeburn', 'R3-golden-delicious']);
  });

  it("offers a room's fill over its lots", async () => {
    await propose();
    const at = positionOf(editor.document, '  D1:', 3);
    const actions = await vscode.commands.executeCommand(
      'vscode.executeCodeActionProvider',
      editor.document.uri,
      new vscode.Range(at, at),
    );
    const action = actions.find(({ title }) => title.startsWith('Put these lots into R3: D1 97'));
    holds(action?.command, actions.map(({ title }) => title).join('; '));
    await vscode.commands.executeCommand(action.command.command, ...action.command.arguments);
    equal(fills(), ['R1-gala', 'R2-gala', 'R3-golden-delicious']);
  });
});
