const vscode = require('vscode');
const { equal, extension, holds, open, replace, revertAll, until } = require('./support.js');

describe('what a change of the plan does', () => {
  let api;
  let editor;
  const [was, is] = ['G4: 78, G5: 81, G6: 76', 'G4: 78, G5: 60, G6: 76'];
  const git = () => vscode.extensions.getExtension('vscode.git');
  before(async function () {
    // Where this suite runs alone, the server starts meanwhile.
    this.timeout(80_000);
    api = await extension().activate();
    editor = await open('first-season', 'fruit.lotplan.yaml');
    await vscode.commands.executeCommand('lotwright.openTimeline');
    const isShown = () => api.shownTimeline()?.rows.some(({ key }) => key === 'R2-gala');
    await until('the timeline of this plan', isShown, 60_000);
    await replace(editor, was, is);
  });
  after(revertAll);

  it('stands in the source-control view, the gravest first, and goes with the change', async () => {
    if (!git()) {
      equal(api.changeInSourceControl(), undefined);
      return;
    }
    const told = await until('the heading', () => api.changeInSourceControl(), 35_000);
    holds(/^Worse: [\d,]+ more cartons of Gala first short/.test(told.heading), told.heading);
    holds(told.heading.includes('1 change'), told.heading);
    for (const line of told.leadsTo) holds(/\.lotplan\.yaml#L\d+$/.test(line), line);
  }).timeout(60_000);

  it('is told against a branch as against the last commit, where the work left it', async () => {
    if (!git()) return;
    const [repository] = git().exports.getAPI(1).repositories;
    const against = { branch: repository.state.HEAD.name };
    const told = await vscode.commands.executeCommand('lotwright.tellChange', against);
    equal(told.changes, 1);
    holds(told.cause.includes('G5'), told.cause);
    await vscode.window.showTextDocument(editor.document);
    await replace(editor, is, was);
    await until('nothing left to tell', () => api.changeInSourceControl() === undefined, 35_000);
  }).timeout(80_000);
});
