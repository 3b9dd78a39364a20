// Beside an extension for YAML in general: it leaves our language alone, and knows the schema of who opens a plan as YAML.
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
  until,
} = require('./support.js');

const general = vscode.extensions.getExtension('t.general-yaml');
const ask = (command, ...args) => vscode.commands.executeCommand(`vscode.${command}`, ...args);

describe('beside an extension for YAML in general', () => {
  if (general) withGeneralYaml();
  else
    it('which runs where there are processes, and is not there in a browser', () => {
      equal(vscode.env.uiKind, vscode.UIKind.Web);
    });
});

function withGeneralYaml() {
  let editor;
  let uri;
  before(async () => {
    await extension().activate();
    const { schemas } = await general.activate();
    holds(
      Object.entries(schemas).some(([url, files]) => url.endsWith('lot-plan.schema.json') && files),
      JSON.stringify(schemas),
    );
    editor = await open('first-season', 'fruit.lotplan.yaml');
    uri = editor.document.uri;
    await until('symbols', async () => (await ask('executeDocumentSymbolProvider', uri))?.length);
  });
  after(async () => {
    await vscode.languages.setTextDocumentLanguage(editor.document, 'lotplan');
    await revertAll();
  });

  const sources = () => [...new Set(vscode.languages.getDiagnostics(uri).map(({ source }) => source))];

  it('nothing in a plan is answered twice', async () => {
    const { document } = editor;
    await replace(editor, 'room: R2', 'rooom: R2');
    await until('the unknown key', () => codes(uri).includes('unknown-key'));
    equal(sources(), ['Lotwright']);
    await replace(editor, 'rooom: R2', 'room: R2');
    await until('no unknown key', () => !codes(uri).includes('unknown-key'));
    const hovers = await ask('executeHoverProvider', uri, positionOf(document, 'room: R2', 2));
    equal(hovers.length, 1, 'hovers');
    const { items } = await ask('executeCompletionItemProvider', uri, positionOf(document, 'room: R2', 8));
    const labels = items.map(({ label }) => label.label ?? label);
    equal(labels.filter((one) => one === 'R2').length, 1, 'times that R2 is offered');
    const outline = await ask('executeDocumentSymbolProvider', uri);
    equal(
      outline.map(({ name }) => name),
      ['regimes', 'lots', 'fills'],
    );
  });

  it('who opens a plan as YAML has its schema there: what a key means, and what is wrong', async () => {
    const document = await vscode.languages.setTextDocumentLanguage(editor.document, 'yaml');
    editor = await vscode.window.showTextDocument(document);
    const hover = await until('the hover', async () => {
      const hovers = await ask('executeHoverProvider', uri, positionOf(document, 'room: R2', 2));
      const text = hovers.flatMap(({ contents }) => contents.map(({ value }) => value)).join('\n');
      return text.includes('The room that is filled.') && text;
    });
    holds(!hover.includes('room volume'), `figures come from our own language alone: ${hover}`);
    await replace(editor, 'room: R2', 'rooom: R2');
    const found = await until('what the schema says', () =>
      vscode.languages
        .getDiagnostics(uri)
        .find(({ source, message }) => source !== 'Lotwright' && message.includes('rooom')),
    );
    equal(document.getText(found.range), 'rooom');
    await replace(editor, 'rooom: R2', 'room: R2');
    await until('a plan that the schema holds to be right', () =>
      vscode.languages.getDiagnostics(uri).every(({ source }) => source === 'Lotwright'),
    );
  }).timeout(60_000);
}
