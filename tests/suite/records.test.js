const vscode = require('vscode');
const { equal, extension, holds, open, positionOf, revertAll, until } = require('./support.js');

describe('records of the season in the text', () => {
  before(async function () {
    // Where this suite runs alone, the server starts meanwhile.
    this.timeout(80_000);
    await extension().activate();
  });
  after(revertAll);

  const ask = (what, ...rest) => vscode.commands.executeCommand(`vscode.${what}`, ...rest);

  it('have above them what came otherwise than planned', async () => {
    const { document } = await open('in-march', 'records.lotplan.yaml');
    const titles = await until(
      'the figures above the records',
      async () => {
        const lenses = await ask('executeCodeLensProvider', document.uri, 200);
        const found = lenses?.map(({ range, command }) => [
          document.lineAt(range.start.line).text.trim().split(':')[0],
          command?.title ?? '',
        ]);
        return found?.some(([name]) => name === 'V041') ? found : undefined;
      },
      60_000,
    );
    const titleOf = (id) => titles.filter(([name]) => name === id).map(([, title]) => title)[0] ?? '';
    holds(titleOf('R2-gala').startsWith('sealed 1 day later than planned'), titleOf('R2-gala'));
    holds(
      /^G4: 71 N · .* N softer than by the plan's course/.test(titleOf('T07-R2-gala')),
      titleOf('T07-R2-gala'),
    );
    holds(titleOf('P01-R4-braeburn').startsWith('141 bins packed of 281'), titleOf('P01-R4-braeburn'));
    holds(titleOf('V041').startsWith('778 cartons sold of 780 wanted'), titleOf('V041'));
  }).timeout(80_000);

  it('are offered whole where they are due', async () => {
    const { document } = await open('mid-harvest', 'records.lotplan.yaml');
    const editor = vscode.window.activeTextEditor;
    const start = positionOf(document, 'progress:\n', 'progress:\n'.length);
    holds(await editor.edit((edit) => edit.insert(start, '  \n')), 'the edit was refused');
    const item = await until('the progress of the last room', async () => {
      const place = positionOf(document, 'progress:\n  ', 'progress:\n  '.length);
      const { items } = await ask('executeCompletionItemProvider', document.uri, place);
      return items.find(({ label }) => (label.label ?? label) === 'progress of R4-braeburn');
    });
    const text = String(item.insertText?.value ?? item.insertText);
    holds(text.includes('first-bin: '), text);
    equal(text.includes('2026-10-05'), true, text);
  });
});
