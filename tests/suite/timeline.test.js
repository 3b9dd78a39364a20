const vscode = require('vscode');
const { equal, extension, holds, open, replace, revertAll, until } = require('./support.js');

describe('room timeline', () => {
  let api;
  before(async () => {
    api = await extension().activate();
  });
  after(revertAll);

  const rooms = () => api.shownTimeline()?.rows.map(({ key }) => key);

  it('shows every filled room of the plan in front', async () => {
    await open('first-season', 'fruit.lotplan.yaml');
    await vscode.commands.executeCommand('lotwright.openTimeline');
    const shown = await until('the rows', () => (rooms()?.includes('R2-gala') ? rooms() : undefined));
    equal([...shown].sort(), ['R1-gala', 'R2-gala', 'R3-golden', 'R4-braeburn']);
    holds(api.shownTimeline().caution.includes('calibrated instrument'), 'the caution is there');
  });

  it('follows the text as it changes', async () => {
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    const { revision } = await until('a timeline', () => api.shownTimeline());
    await replace(editor, 'open: 2027-W01', 'open: 2027-W03');
    const row = () => api.shownTimeline().rows.find(({ key }) => key === 'R2-gala');
    await until('the new pin', () => {
      const { weeks } = api.shownTimeline();
      return weeks[row()?.opens?.week] === '2027-W03';
    });
    holds(api.shownTimeline().revision > revision, 'the revision has grown');
    equal(row().opens.pinned, true);
    await replace(editor, 'open: 2027-W03', 'open: 2027-W01');
  });

  it('finds release weeks in a worker and shows them', async () => {
    await open('first-season', 'fruit.lotplan.yaml');
    const before = await until('a timeline', () => api.shownTimeline());
    await vscode.commands.executeCommand('lotwright.findReleaseWeeks');
    const after = await until('a newer timeline', () => {
      const shown = api.shownTimeline();
      return shown && shown.revision > before.revision ? shown : undefined;
    });
    for (const { key, opens } of after.rows) holds(opens, `${key} has an opening week`);
  }).timeout(60_000);

  it('saves a picture, as text and as dots', async () => {
    await open('first-season', 'fruit.lotplan.yaml');
    await until('the rows', () => rooms()?.includes('R2-gala'));
    const [folder] = vscode.workspace.workspaceFolders;
    for (const format of ['svg', 'png']) {
      const to = vscode.Uri.joinPath(folder.uri, `picture.${format}`);
      await vscode.commands.executeCommand('lotwright.savePicture', { to: to.toString(), format });
      const bytes = await until(`the ${format}`, () =>
        vscode.workspace.fs.readFile(to).then(
          (read) => read,
          () => undefined,
        ),
      );
      const start = new TextDecoder('latin1').decode(bytes.subarray(0, 4));
      equal(start.slice(format === 'svg' ? 0 : 1), format === 'svg' ? '<svg' : 'PNG');
      await vscode.workspace.fs.delete(to);
    }
  });

  it('opens in the editor area too, and both show the same', async () => {
    await vscode.commands.executeCommand('lotwright.openWideTimeline');
    await until('its tab', () =>
      vscode.window.tabGroups.all.some(({ tabs }) => tabs.some(({ label }) => label === 'Room timeline')),
    );
    await until('the rows', () => rooms()?.includes('R2-gala'));
  });

  it('shows the plan of the document that comes to the front', async () => {
    await open('us-units', 'wrenlow.lotplan.yaml');
    await until('the other plan', () => rooms() && !rooms().includes('R2-gala'));
  });
});
