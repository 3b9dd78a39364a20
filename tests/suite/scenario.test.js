const vscode = require('vscode');
const { equal, extension, holds, open, revertAll, until } = require('./support.js');

describe('the timeline beside a scenario of the plan', () => {
  let api;
  before(async function () {
    // Where this suite runs alone, the server starts meanwhile.
    this.timeout(80_000);
    api = await extension().activate();
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    await vscode.commands.executeCommand('lotwright.openTimeline');
    await until('the timeline of this plan', () => row('R2-gala'), 60_000);
    const end = editor.document.lineAt(editor.document.lineCount - 1).range.end;
    const hail = '\nscenarios:\n  hail: { says: hail takes half of the Gala, crop-of: { Gala: 50 % } }\n';
    holds(await editor.edit((edit) => edit.insert(end, hail)), 'the edit was refused');
  });
  after(revertAll);

  const row = (key) => api.shownTimeline()?.rows.find((one) => one.key === key);
  const against = () => api.shownTimeline()?.against;
  const compare = (other) => vscode.commands.executeCommand('lotwright.compareWith', other);

  it('says what the plan would be under it, and in which rooms', async () => {
    const columns = api.shownTimeline().columns.length;
    await compare({ scenario: 'hail' });
    const { label, note } = await until('the other state', against, 30_000);
    equal(label, 'scenario hail');
    holds(note.startsWith('Against scenario hail: '), note);
    const shown = api.shownTimeline();
    equal(shown.columns.length, columns + 2);
    holds(row('R2-gala').other, 'a room that holds half the Gala has its other state');
    holds(
      shown.supply.some(
        ({ name, supply, other }) => /Gala/.test(name) && other && other.join() !== supply.join(),
      ),
      'less Gala is supplied',
    );
  }).timeout(40_000);

  it('stays as it was for a scenario that the plan does not have, and goes when asked to', async () => {
    await compare({ scenario: 'frost' });
    equal(against()?.label, 'scenario hail');
    await compare('nothing');
    await until('the plan alone', () => against() === undefined);
    equal(row('R2-gala').other, undefined);
  }).timeout(40_000);
});
