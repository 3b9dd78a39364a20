const vscode = require('vscode');
const { equal, extension, holds, open, replace, revertAll, until } = require('./support.js');

describe('promises in the test explorer', () => {
  let api;
  before(async () => {
    api = await extension().activate();
  });
  after(revertAll);

  const ofFile = (file) => api.listedPromises().find((one) => one.file === file);
  const named = (all, id) => all.find((one) => one.id === id);

  it('are listed by plan and file', async () => {
    await open('full-season', 'season.lotplan.yaml');
    const listed = await until('the promises of the season', () => ofFile('expect.lotplan.yaml'));
    holds(listed.ids.includes('gala-nearly-all'), `listed: ${listed.ids}`);
  });

  it('are checked on the computed season, and a broken one says what came out', async () => {
    const editor = await open('full-season', 'expect.lotplan.yaml');
    const kept = await api.checkPromises();
    equal(named(kept, 'gala-nearly-all').state, 'kept');
    await replace(editor, 'scrubber: S1, at-most: 95 %', 'scrubber: S1, at-most: 40 %');
    const broken = await until('a broken promise', async () => {
      const one = named(await api.checkPromises(), 'headroom-s1');
      return one?.state === 'broken' && one;
    });
    holds(broken.message.includes('promised 40 %'), broken.message);
    const found = await until('the finding', () =>
      vscode.languages
        .getDiagnostics(editor.document.uri)
        .find(({ code }) => (typeof code === 'object' ? code.value : code) === 'expectation-broken'),
    );
    holds(found.message.includes('headroom-s1'), found.message);
  });
});
