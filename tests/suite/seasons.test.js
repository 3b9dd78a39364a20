const vscode = require('vscode');
const { equal, extension, holds, open, revertAll, until } = require('./support.js');

describe('seasons drawn', () => {
  let api;
  before(async () => {
    api = await extension().activate();
    await open('first-season', 'fruit.lotplan.yaml');
    await vscode.commands.executeCommand('lotwright.openTimeline');
    await until('the timeline', () => api.shownTimeline()?.rows.length > 0);
  });
  after(() => revertAll());

  const page = () => vscode.workspace.textDocuments.find(({ uri }) => uri.scheme === 'lotwright-seasons');

  it('are drawn in workers, shown in the timeline and as a page', async () => {
    equal(await vscode.commands.executeCommand('lotwright.drawSeasons', { draws: 40 }), true);
    await until('the chances', () => api.shownTimeline()?.drawn);
    const view = api.shownTimeline();
    holds(view.drawn.note.startsWith('40 seasons drawn: worth '), view.drawn.note);
    holds(
      view.supply[0].chance.some((one) => one > 0),
      'some week may be short',
    );
    holds(
      view.rows.some(({ hangs }) => hangs),
      'the schedule hangs on some room',
    );
    await until('the page', () => page());
    holds(page().getText().includes('40 seasons drawn (seed 1)'), page().getText());
  });

  it('a schedule good across them is sought in workers and takes the place of the one at hand', async () => {
    await open('first-season', 'fruit.lotplan.yaml');
    const few = { draws: 20, soughtOn: 6 };
    equal(await vscode.commands.executeCommand('lotwright.seekAcrossSeasons', few), true);
    await until('its seasons', () => api.shownTimeline()?.drawn?.note.includes('good across seasons'));
    equal(api.shownTimeline().drawn.older, false);
  });
});
