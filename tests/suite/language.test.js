const vscode = require('vscode');
const { equal, extension, holds, open, positionOf, revertAll, until } = require('./support.js');

describe('language features', () => {
  let editor;
  before(async () => {
    await extension().activate();
    editor = await open('first-season', 'fruit.lotplan.yaml');
  });
  after(revertAll);

  /** Whether a tab with this in its label is open, as a page of that kind where one is asked for. */
  const hasTab = (label, pageKind) =>
    vscode.window.tabGroups.all
      .flatMap(({ tabs }) => tabs)
      .some(
        (tab) => tab.label.includes(label) && (!pageKind || String(tab.input?.viewType).includes(pageKind)),
      );

  // An extension host in a browser does not see the extensions of another host: there a text is as good.
  const rendered = () => vscode.extensions.getExtension('vscode.markdown-language-features') !== undefined;

  const hoverText = async (text, inside) => {
    const { document } = editor;
    const hovers = await vscode.commands.executeCommand(
      'vscode.executeHoverProvider',
      document.uri,
      positionOf(document, text, inside),
    );
    return hovers.flatMap(({ contents }) => contents.map(({ value }) => value)).join('\n');
  };

  it('hover says what a key means and what its value comes to', async () => {
    const text = await until('the hover', () => hoverText('room: R2', 6));
    holds(text.includes('The room that is filled.'), text);
    holds(text.includes('room volume: 365 m³'), text);
  });

  it('hover over a fill has its window, and the caution beside it', async () => {
    const text = await hoverText('R2-gala:', 3);
    holds(/Opening window \d{4}-W\d\d/.test(text), text);
    holds(text.includes('calibrated instrument'), text);
    holds(text.indexOf('calibrated instrument') < text.indexOf('Opening window'), 'the caution comes first');
  });

  it('go to definition leads into the other file', async () => {
    const { document } = editor;
    const [found] = await vscode.commands.executeCommand(
      'vscode.executeDefinitionProvider',
      document.uri,
      positionOf(document, 'room: R2', 7),
    );
    const uri = found.uri ?? found.targetUri;
    const range = found.range ?? found.targetSelectionRange;
    holds(uri.path.endsWith('/first-season/orrowby.lotplan.yaml'), uri.path);
    const target = await vscode.workspace.openTextDocument(uri);
    equal(target.getText(range), 'R2');
  });

  it('references name both files', async () => {
    const { document } = editor;
    const found = await vscode.commands.executeCommand(
      'vscode.executeReferenceProvider',
      document.uri,
      positionOf(document, 'room: R2', 7),
    );
    equal(found.map(({ uri }) => uri.path.split('/').pop()).sort(), [
      'fruit.lotplan.yaml',
      'orrowby.lotplan.yaml',
    ]);
  });

  it('the outline has sections and entries', async () => {
    const symbols = await vscode.commands.executeCommand(
      'vscode.executeDocumentSymbolProvider',
      editor.document.uri,
    );
    equal(
      symbols.map(({ name, children }) => [name, children.length]),
      [
        ['regimes', 3],
        ['lots', 12],
        ['fills', 4],
      ],
    );
  });

  it('completion offers the rooms of the other file', async () => {
    const { document } = editor;
    const list = await vscode.commands.executeCommand(
      'vscode.executeCompletionItemProvider',
      document.uri,
      positionOf(document, 'room: R2', 8),
    );
    const labels = list.items.map(({ label }) => label.label ?? label);
    for (const room of ['R1', 'R2', 'R3', 'R4']) holds(labels.includes(room), labels.join(', '));
  });

  it('explains the figures at the caret on a page of their own', async () => {
    const at = positionOf(editor.document, 'room: R2', 7);
    editor = await vscode.window.showTextDocument(editor.document);
    editor.selection = new vscode.Selection(at, at);
    await vscode.commands.executeCommand('lotwright.explainAtCursor');
    const shown = await until('the explanation', () =>
      vscode.workspace.textDocuments.find(
        (document) =>
          document.uri.scheme === 'lotwright-explain' && document.getText().startsWith('# Room R2'),
      ),
    );
    holds(shown.getText().includes('room volume = length * width * height'), shown.getText().slice(0, 500));
    await until('the page', () => hasTab('Room R2', rendered() ? 'markdown.preview' : undefined));
  });

  it('shows what a finding means as a rendered page, where the editor has its preview', async () => {
    await vscode.commands.executeCommand('lotwright.showFindingPage', 'lime-dust');
    await until('the page', () => hasTab('lime-dust', rendered() ? 'markdown.preview' : undefined));
  });
});
