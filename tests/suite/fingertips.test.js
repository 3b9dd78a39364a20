// What the editor asks of a plan at a place, beside hover, definition and completion of names.
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

const ask = (command, ...args) => vscode.commands.executeCommand(`vscode.${command}`, ...args);

describe('at the fingertips', () => {
  let editor;
  let uri;
  before(async () => {
    await extension().activate();
    editor = await open('first-season', 'fruit.lotplan.yaml');
    uri = editor.document.uri;
    await until('symbols', async () => (await ask('executeDocumentSymbolProvider', uri))?.length);
  });
  after(revertAll);

  const at = (text, inside) => positionOf(editor.document, text, inside);
  const offered = async (place) => {
    const { items } = await ask('executeCompletionItemProvider', uri, place);
    return items.map((item) => ({ ...item, name: item.label.label ?? item.label }));
  };

  it('highlights a room where it is named in the file', async () => {
    const found = await ask('executeDocumentHighlights', uri, at('room: R2', 7));
    holds(
      found.some(({ range }) => editor.document.getText(range) === 'R2'),
      'the name itself is not highlighted',
    );
  });

  it('widens the selection from a word to its entry and the file', async () => {
    const [selection] = await ask('executeSelectionRangeProvider', uri, [at('room: R2', 7)]);
    const texts = [];
    for (let one = selection; one; one = one.parent) texts.push(editor.document.getText(one.range));
    equal(texts[0], 'R2');
    holds(
      texts.some((text) => text.startsWith('R2-gala:')),
      texts.slice(0, 4).join(' | '),
    );
    for (let index = 1; index < texts.length; index++)
      holds(texts[index].includes(texts[index - 1]), 'each holds the one before');
  });

  it('leads from an allowed finding to its page', async () => {
    const mark = ' # lotwright: allow room-partly-filled -- the late block froze';
    await replace(editor, '    room: R2\n', `    room: R2${mark}\n`);
    const link = await until('the link', async () => {
      const links = await ask('executeLinkProvider', uri, 100);
      return links.find(({ range }) => editor.document.getText(range) === 'room-partly-filled');
    });
    holds(String(link.target?.path).endsWith('/pages/room-partly-filled.md'), String(link.target));
    await replace(editor, mark, '');
  });

  it('leads from the name of a file of readings to the file', async () => {
    const folder = uri.path.slice(0, uri.path.lastIndexOf('/'));
    const documents = await vscode.workspace.findFiles('first-season/*.lotplan.yaml');
    const links = await Promise.all(
      documents.map(async (one) => {
        await vscode.workspace.openTextDocument(one);
        return ask('executeLinkProvider', one, 100);
      }),
    );
    const targets = links.flat().map(({ target }) => target?.path);
    holds(targets.includes(`${folder}/readings.csv`), JSON.stringify(targets));
  });

  it('helps with a quantity as it is written', async () => {
    const help = await ask('executeSignatureHelpProvider', uri, at('field-temperature: ', 21), ' ');
    holds(/number °C/.test(help.signatures[0].label), JSON.stringify(help.signatures));
  });

  it("offers the weeks of a fill's window, the schedule's first, with the caution", async () => {
    const weeks = await until('the weeks', async () => {
      const all = await offered(at('open: 2027-W01', 6));
      return all.some(({ name }) => name === '2027-W01') && all;
    });
    const [first] = [...weeks].sort((a, b) => String(a.sortText).localeCompare(String(b.sortText)));
    equal([first.name, first.detail], ['2027-W01', "the schedule's week"]);
    holds(String(first.documentation?.value ?? first.documentation).includes('Sealed rooms kill'), 'caution');
  });

  it('offers lots with the bins they have left, and whole entries to fill in', async () => {
    await replace(editor, 'lots: { G4: 78, ', 'lots: { ');
    const lots = await until('the lot', async () => {
      const all = await offered(at('lots: { G5: 81', 8));
      return all.some(({ name }) => name === 'G4') && all;
    });
    const lot = lots.find(({ name }) => name === 'G4');
    holds(/78/.test(`${lot.detail} ${lot.documentation?.value ?? lot.documentation}`), JSON.stringify(lot));
    await replace(editor, 'lots: { G5: 81', 'lots: { G4: 78, G5: 81');
    await replace(editor, '\nfills:\n', '\nfills:\n  \n');
    const place = at('\nfills:\n  ', 10);
    const entry = await until('a whole entry', async () =>
      (await offered(place)).find(({ name }) => name === 'new fill'),
    );
    // An editor that knows snippets gets them: the name is the first place to fill.
    holds(String(entry.insertText?.value ?? entry.insertText).startsWith('${1:'), JSON.stringify(entry));
    await replace(editor, '\nfills:\n  \n', '\nfills:\n');
  });

  it('lays out a line with blanks at its end, and changes no word', async () => {
    await replace(editor, '    room: R2\n', '    room: R2   \n');
    const edits = await ask('executeFormatDocumentProvider', uri, { tabSize: 2, insertSpaces: true });
    holds(edits?.length > 0, 'nothing to lay out');
    const edit = new vscode.WorkspaceEdit();
    edit.set(uri, edits);
    holds(await vscode.workspace.applyEdit(edit), 'the layout was refused');
    holds(editor.document.getText().includes('\n    room: R2\n'), 'the line is laid out');
  });

  it('mends all that has one cure, at once', async () => {
    await replace(editor, 'variety: Braeburn', 'variety: Braebrun');
    await until('the unknown variety', () => codes(uri).includes('unknown-reference'));
    const whole = new vscode.Range(0, 0, editor.document.lineCount, 0);
    const action = await until('fix all', async () =>
      (await ask('executeCodeActionProvider', uri, whole, 'source.fixAll')).find(({ edit }) => edit),
    );
    holds(await vscode.workspace.applyEdit(action.edit), 'the fix was refused');
    holds(!editor.document.getText().includes('Braebrun'), 'the variety is mended');
    await until('no unknown variety', () => !codes(uri).includes('unknown-reference'));
  });

  it('says in a finding where else to look', async () => {
    const { path } = sample('with-mistakes', '');
    const related = await until('a related place', () =>
      vscode.languages
        .getDiagnostics()
        .filter(([file]) => file.path.startsWith(path))
        .flatMap(([, list]) => list)
        .find(({ relatedInformation }) => relatedInformation?.length > 0),
    );
    const [{ location, message }] = related.relatedInformation;
    const document = await vscode.workspace.openTextDocument(location.uri);
    holds(message.length > 0 && document.getText(location.range).trim() !== '', 'the place has text');
  });

  it('shows findings as the settings have it', async () => {
    const wanted = () =>
      vscode.languages
        .getDiagnostics(uri)
        .find(({ code }) => (code?.value ?? code) === 'caution-before-opening');
    const before = await until('the notice', wanted);
    equal(before.severity, vscode.DiagnosticSeverity.Information);
    const settings = vscode.workspace.getConfiguration('lotwright');
    const { Workspace } = vscode.ConfigurationTarget;
    await settings.update('findings', { 'caution-before-opening': 'warning' }, Workspace);
    try {
      await until('a warning', () => wanted()?.severity === vscode.DiagnosticSeverity.Warning);
    } finally {
      await settings.update('findings', undefined, Workspace);
    }
    await until('the notice again', () => wanted()?.severity === vscode.DiagnosticSeverity.Information);
  });

  it('marks figures above entries as older until the schedule fits an edit', async () => {
    const title = async () =>
      (await ask('executeCodeLensProvider', uri, 100)).find(({ command }) =>
        command?.title.startsWith('235 bins'),
      )?.command.title;
    // Every plan of the workspace settles; on a busy machine that takes a while.
    const long = 60_000;
    const isSettled = (told) => / · release 2027-W01, pinned$/.test(told);
    await until('a settled figure', async () => isSettled(await title()), long);
    await replace(editor, 'received: 78', 'received: 79');
    const seen = [];
    const fits = async () => {
      seen.push(await title());
      return seen.length > 1 && isSettled(seen.at(-1));
    };
    await until('figures that fit again', fits, long);
    for (const one of seen)
      holds(/ · release 2027-W01, pinned( · before the last change)?$/.test(one), String(one));
    await replace(editor, 'received: 79', 'received: 78');
  }).timeout(150_000);
});
