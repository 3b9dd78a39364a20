const vscode = require('vscode');
const { codes, equal, extension, holds, open, replace, revertAll, sample, until } = require('./support.js');

describe('what readings show', () => {
  const fruit = sample('first-season', 'fruit.lotplan.yaml');
  const orrowby = sample('first-season', 'orrowby.lotplan.yaml');
  const file = sample('first-season', 'readings.csv');
  let editor;
  let rows;
  before(async function () {
    // Where this suite runs alone, the server starts meanwhile.
    this.timeout(80_000);
    await extension().activate();
    rows = new TextDecoder().decode(await vscode.workspace.fs.readFile(file));
    editor = await open('first-season', 'fruit.lotplan.yaml');
    await until('a finding of a reading', () => codes(fruit).includes('oxygen-high'), 60_000);
  });
  after(async () => {
    await write(rows);
    await vscode.window.showTextDocument(editor.document);
    await revertAll();
  });

  const write = (text) => vscode.workspace.fs.writeFile(file, new TextEncoder().encode(text));
  const finding = (wanted) =>
    vscode.languages
      .getDiagnostics(fruit)
      .find(({ source, code }) => source === 'Lotwright' && (code.value ?? code) === wanted);
  const places = ({ relatedInformation }) =>
    relatedInformation.map(({ location }) => location.uri.toString());
  /** The text of the line that a related place of the file of readings leads to. */
  const rowOf = async ({ relatedInformation }) => {
    const { location } = relatedInformation.find(({ location }) => location.uri.path === file.path);
    const document = await vscode.workspace.openTextDocument(location.uri);
    return document.lineAt(location.range.start.line).text;
  };

  it('is a notice at the fill where days have none, with the last reading before them', async () => {
    const gap = finding('record-gap');
    equal(gap.severity, vscode.DiagnosticSeverity.Information);
    equal(editor.document.getText(gap.range), 'R2-gala');
    holds(gap.message.startsWith('R2: 4 whole days have no reading'), gap.message);
    holds(gap.code.target.path.endsWith('/pages/record-gap.md'), 'the code leads to its page');
    equal(places(gap), [orrowby.toString(), file.toString()]);
    const inR2 = rows.split('\n').filter((row) => row.includes(',R2,'));
    const last = inR2.filter((row) => row < '2026-10-16').at(-1);
    equal(await rowOf(gap), last);
  });

  it('is a warning where oxygen climbs, with the record, the first reading of it, and the caution', async () => {
    const high = finding('oxygen-high');
    equal(high.severity, vscode.DiagnosticSeverity.Warning);
    equal(editor.document.getText(high.range), 'R3-golden');
    holds(/Oxygen is up to \d\.\d\d points too high/.test(high.message), high.message);
    holds(high.message.includes('Sealed rooms kill'), 'whoever goes to look is cautioned');
    const [record] = high.relatedInformation;
    equal(record.location.uri.toString(), orrowby.toString());
    const plan = await vscode.workspace.openTextDocument(orrowby);
    holds(plan.getText(record.location.range).includes('readings.csv'), 'the record names its file');
    const row = await rowOf(high);
    holds(row.startsWith('2026-11-18 00:00,R3,'), row);
  });

  it('goes where the file no longer has it, and comes back with it', async () => {
    const without = rows.split('\n').filter((row) => !(row > '2026-11-17' && row.includes(',R3,')));
    await write(without.join('\n'));
    await until('oxygen as expected', () => !codes(fruit).includes('oxygen-high'));
    holds(codes(fruit).includes('record-gap'), 'the other room keeps its finding');
    await write(rows);
    const again = await until('oxygen too high', () => finding('oxygen-high'));
    equal(editor.document.getText(again.range), 'R3-golden');
  });

  it('is quiet where it is allowed with a reason, at once and before anything is saved', async () => {
    await replace(
      editor,
      '  R3-golden:\n',
      '  R3-golden: # lotwright: allow oxygen-high -- analyser in repair\n',
    );
    await until('it is allowed', () => !codes(fruit).includes('oxygen-high'));
    holds(editor.document.isDirty, 'nothing is saved');
    await vscode.commands.executeCommand('undo');
    await until('it is told again', () => codes(fruit).includes('oxygen-high'));
  });
});
