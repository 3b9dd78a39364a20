import { type ChildProcess, fork } from 'node:child_process';

/** Begins a process of the language server, which may be spoken to at once: it hears when it is there. `file` is the server's. */
export function begunServer(file: string): ChildProcess {
  const server = fork(file, ['--node-ipc', `--clientProcessId=${process.pid}`], {
    // The editor's own program is Node where it is asked to be.
    env: { ...process.env, ELECTRON_RUN_AS_NODE: '1', ELECTRON_NO_ASAR: '1' },
    execArgv: [],
    silent: true,
  });
  // Without a listener it would end the editor's extensions. Whoever takes a process that has not come begins another.
  server.on('error', () => {});
  return server;
}
