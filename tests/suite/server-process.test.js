// For the extension host that is Node: in the browser the server is a worker, and there are no processes.
const fs = require('node:fs');
const { codes, equal, extension, holds, open, replace, revertAll, until } = require('./support.js');

/** The processes of the language server that this one has begun. */
function servers() {
  const tasks = `/proc/${process.pid}/task`;
  return fs
    .readdirSync(tasks)
    .flatMap((task) => fs.readFileSync(`${tasks}/${task}/children`, 'utf8').split(' '))
    .filter((pid) => pid.trim() !== '' && isServer(pid));
}

function isServer(pid) {
  try {
    return fs.readFileSync(`/proc/${pid}/cmdline`, 'utf8').includes('server.cjs');
  } catch {
    // It has ended meanwhile.
    return false;
  }
}

// Elsewhere processes are not seen as files, and the test could not find the one to end.
const onLinux = process.platform === 'linux' ? describe : describe.skip;

onLinux('the process of the language server', () => {
  before(() => extension().activate());
  afterEach(revertAll);

  it('is followed by another one when it has fallen, which knows the plan as it is typed', async () => {
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    const { uri } = editor.document;
    const [before, ...others] = servers();
    equal(others, []);
    await replace(editor, 'room: R2', 'room: R9');
    await until('the unknown room', () => codes(uri).includes('unknown-reference'));
    process.kill(Number(before), 'SIGKILL');
    await until('another server', () => servers().some((pid) => pid !== before));
    await replace(editor, 'room: R9', 'room: R8');
    await until('the unknown room of the new text', () => codes(uri).includes('unknown-reference'), 30_000);
    await replace(editor, 'room: R8', 'room: R2');
    await until('no unknown room', () => !codes(uri).includes('unknown-reference'), 30_000);
    holds(!servers().includes(before), 'the one that has fallen is gone');
    equal(servers().length, 1);
  }).timeout(90_000);
});
