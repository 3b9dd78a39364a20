const vscode = require('vscode');
const { codes, equal, extension, holds, open, revertAll, sample, until } = require('./support.js');

describe('taking in a file', () => {
  const LATE = `lotwright: 1
lots:
  X1: { variety: Gala, picked: 2026-09-03, bins: 40 }
tables:
  scale: { holds: receipts, columns: { lot: Lot, day: Day, bins: Bins } }
`;
  const ROWS = 'Lot,Day,Bins\nX1,2026-09-03,20\nNobody,2026-09-03,5\n';
  const plan = sample('first-season', 'late.lotplan.yaml');
  const file = vscode.Uri.joinPath(plan, '../../receipts.csv');
  let editor;
  before(async () => {
    await extension().activate();
    await vscode.workspace.fs.writeFile(plan, new TextEncoder().encode(LATE));
    await vscode.workspace.fs.writeFile(file, new TextEncoder().encode(ROWS));
    editor = await open('first-season', 'late.lotplan.yaml');
    await until('the plan with the file', () => codes(plan).includes('lot-not-placed'));
  });
  after(async () => {
    await vscode.window.showTextDocument(editor.document);
    await revertAll();
    for (const one of [file, plan]) await vscode.workspace.fs.delete(one).then(undefined, () => {});
  });

  const take = async (accept) => {
    // The page that was shown last may be in front.
    await vscode.window.showTextDocument(editor.document);
    return vscode.commands.executeCommand('lotwright.takeIn', {
      table: 'scale',
      file: file.toString(),
      accept,
    });
  };

  it('shows what would change and changes nothing', async () => {
    const before = editor.document.getText();
    equal(await take(false), 0);
    equal(editor.document.getText(), before);
    const page = vscode.Uri.from({ scheme: 'lotwright-take-in', path: '/Take in receipts.csv.md' });
    const document = await vscode.workspace.openTextDocument(page);
    const text = await until('the page', () => document.getText());
    holds(text.includes('lot X1'), 'the entry that would change');
    holds(text.includes('receipts.csv:3'), 'the row that is not taken, by its line');
  });

  it('makes the changes as edits, once', async () => {
    const lines = editor.document.lineCount;
    holds((await take(true)) > 0, 'something changed');
    holds(editor.document.getText().includes('2026-09-03: 20'), 'the receipt stands in the plan');
    holds(editor.document.isDirty && editor.document.lineCount >= lines, 'nothing is saved or lost');
    equal(await take(false), 0);
    const page = vscode.Uri.from({ scheme: 'lotwright-take-in', path: '/Take in receipts.csv.md' });
    const document = await vscode.workspace.openTextDocument(page);
    await until('nothing left to change', () => document.getText().includes('There is nothing to change.'));
  });
});
