/** How a client speaks to the server's process: `library` leaves it to the protocol's library, which reads the options itself. */
export type SpokenOver = 'ipc' | 'stdio' | 'library';

const WAYS = '--stdio, --node-ipc, --socket=<port>, --pipe=<name>';

export const HELP = `lotwright language server: speaks the Language Server Protocol with one editor.

  --stdio                  on its standard streams; also without any option
  --node-ipc               over the channel of a Node process that has forked it
  --socket=<port>          over a port of this computer on which the editor listens
  --pipe=<name>            over a named pipe or socket file on which the editor listens
  --clientProcessId=<id>   end when that process has ended
  --help                   print this help

For plans at a terminal: node cli.cjs --help
`;

/**
 * What the options of the server's process ask for, or one line that says what was expected. The first that names a way
 * counts, as in the protocol's library; a value stands after `=` or as the next word.
 */
export function spokenOver(words: readonly string[]): SpokenOver | 'help' | { readonly fault: string } {
  let over: SpokenOver | undefined;
  for (let at = 0; at < words.length; at++) {
    const [name = '', after] = parts(words[at] ?? '');
    if (after === undefined && (name === '--help' || name === '-h')) return 'help';
    if (after === undefined && (name === '--stdio' || name === '--node-ipc')) {
      over ??= name === '--stdio' ? 'stdio' : 'ipc';
      continue;
    }
    const isWay = name === '--socket' || name === '--pipe';
    if (!isWay && name !== '--clientProcessId')
      return { fault: `Unknown option "${words[at]}": expected one of ${WAYS}, or --help.` };
    const value = after ?? words[++at] ?? '';
    const expected = wanted(name, value);
    if (expected !== undefined) return { fault: `${name} has "${value}": expected ${expected}.` };
    if (isWay) over ??= 'library';
  }
  return over ?? 'stdio';
}

/** The option's name, and what stands behind its first `=`; the latter is missing where there is none. */
function parts(word: string): readonly [string, string?] {
  const equals = word.indexOf('=');
  return equals < 0 ? [word] : [word.slice(0, equals), word.slice(equals + 1)];
}

/** What should stand for an option's value; undefined where it does. */
function wanted(name: string, value: string): string | undefined {
  if (name === '--pipe') return value === '' ? 'the name of a pipe, as --pipe=editor.sock' : undefined;
  const number = /^\d+$/.test(value) ? Number(value) : 0;
  if (name === '--clientProcessId') return number > 0 ? undefined : "a process's number";
  return number > 0 && number < 65_536 ? undefined : 'a port, 1 to 65535, as --socket=6009';
}
