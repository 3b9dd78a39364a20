const vscode = require('vscode');
const {
  codes,
  equal,
  extension,
  holds,
  open,
  positionOf,
  replace,
  revertAll,
  sample,
  until,
} = require('./support.js');

describe('findings', () => {
  before(() => extension().activate());
  afterEach(revertAll);

  it('appear as text changes and clear when it is mended, at their place', async () => {
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    const { uri } = editor.document;
    await replace(editor, 'room: R2', 'room: R9');
    await until('the unknown room', () => codes(uri).includes('unknown-reference'));
    const found = vscode.languages
      .getDiagnostics(uri)
      .find(({ code }) => (code.value ?? code) === 'unknown-reference');
    equal(editor.document.getText(found.range), 'R9');
    equal(found.severity, vscode.DiagnosticSeverity.Error);
    holds(found.code.target.path.endsWith('/pages/unknown-reference.md'), 'the code leads to its page');
    await replace(editor, 'room: R9', 'room: R2');
    await until('no unknown room', () => !codes(uri).includes('unknown-reference'));
  });

  it('appear in another file that the edit concerns', async () => {
    const fruit = sample('first-season', 'fruit.lotplan.yaml');
    const editor = await open('first-season', 'orrowby.lotplan.yaml');
    await replace(editor, '  R2:\n', '  R2x:\n');
    await until('the unknown room', () => codes(fruit).includes('unknown-reference'));
    await replace(editor, '  R2x:\n', '  R2:\n');
    await until('no unknown room', () => !codes(fruit).includes('unknown-reference'));
  });

  it('are there for plans that nobody opened', async () => {
    const wanted = sample('with-mistakes', '');
    await until('findings of the plan with mistakes', () =>
      vscode.languages
        .getDiagnostics()
        .some(([uri, list]) => uri.toString().startsWith(wanted.toString()) && list.length > 0),
    );
  });

  it('half-typed text gives findings, and the rest of the plan is still computed', async () => {
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    const { uri } = editor.document;
    await replace(editor, 'room: R2\n', 'room: [R2\n');
    await until('an error', () =>
      vscode.languages
        .getDiagnostics(uri)
        .some(({ severity }) => severity === vscode.DiagnosticSeverity.Error),
    );
    const symbols = await vscode.commands.executeCommand('vscode.executeDocumentSymbolProvider', uri);
    const lots = symbols.find(({ name }) => name === 'lots');
    equal(lots.children.length, 12);
  });

  it('offer their fix, and taking it cures them', async () => {
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    const { uri } = editor.document;
    await replace(editor, 'variety: Braeburn', 'variety: Braebrun');
    await until('the unknown variety', () => codes(uri).includes('unknown-reference'));
    const at = positionOf(editor.document, 'Braebrun', 2);
    const actions = await vscode.commands.executeCommand(
      'vscode.executeCodeActionProvider',
      uri,
      new vscode.Range(at, at),
    );
    const fix = actions.find(({ edit, title }) => edit && title.includes('Braeburn'));
    holds(fix, `a fix among ${actions.map(({ title }) => title).join('; ')}`);
    await vscode.workspace.applyEdit(fix.edit);
    await until('no unknown variety', () => !codes(uri).includes('unknown-reference'));
    holds(!editor.document.getText().includes('Braebrun'), 'the text is mended');
  });
});
