/** What the editor's benchmark prints: rounds of both servers side by side. */
import type { Memory, Took } from './bench-editor-client';
import type { EditorSize } from './bench-editor-text';

/** One server's run: each edit with what it took each time; milliseconds, and megabytes. */
export interface Round {
  readonly start: number;
  readonly open: number;
  /** With the start of the process. */
  readonly opened: Took;
  /** Where the server has never run before. */
  readonly openedFirst: Took;
  /** In a server that had loaded all it loads by itself. */
  readonly openLoaded: Took;
  readonly keys: readonly Took[];
  /** In a fill's day of sealing, and in an order's cartons. */
  readonly inFill: readonly Took[];
  readonly inDemand: readonly Took[];
  readonly insert: readonly Took[];
  readonly header: readonly Took[];
  readonly mended: readonly Took[];
  readonly paste: readonly Took[];
  readonly hover: readonly Took[];
  readonly completion: readonly Took[];
  readonly memory: Memory;
  /** Megabytes after each of the keys. */
  readonly memoryBetween: readonly number[];
  readonly diagnostics: number;
}

export type Ending = 'lf' | 'crlf';

/** How a text is written: with a key a line and samples, or with a lot a line and none; and its ends of lines. */
export interface Manner {
  readonly isAtLength: boolean;
  readonly ending: Ending;
}

interface Rounds {
  readonly ours: readonly Round[];
  readonly peers: readonly Round[];
}

/** The table of one plan, by the clock and by processor time. */
export function printTable(size: EditorSize, manner: Manner, text: string, { ours, peers }: Rounds): void {
  const lines = text.split('\n').length;
  const written = `${manner.isAtLength ? 'at length' : 'briefly'}, ${manner.ending.toUpperCase()}`;
  console.log(
    `\n${size.lots} lots, ${size.rooms} rooms: ${text.length} characters, ${lines} lines, ${written}; ${ours.length} rounds; findings ours ${ours[0]?.diagnostics}, peer ${peers[0]?.diagnostics ?? '-'}`,
  );
  printCells('', ['by the clock', '', '', 'by processor', 'time', '']);
  printCells('', ['ours', 'peer raw', 'ratio', 'ours', 'peer raw', 'ratio']);
  const cells = (unit: string, of: (round: Round) => number) => {
    const [mine, theirs] = [median(ours.map(of)), median(peers.map(of))];
    const own = `${mine.toFixed(1)} ${unit}`;
    return peers.length === 0
      ? [own, '', '']
      : [own, `${theirs.toFixed(1)} ${unit}`, (theirs / mine).toFixed(1)];
  };
  const row = (name: string, of: (round: Round) => readonly Took[], share = 0.5) => {
    const by = (part: keyof Took) => (round: Round) =>
      quantile(
        of(round).map((took) => took[part]),
        share,
      );
    printCells(name, [...cells('ms', by('ms')), ...cells('ms', by('processor'))]);
  };
  row('key to findings, median', ({ keys }) => keys);
  row('key to findings, 95th percentile', ({ keys }) => keys, 0.95);
  row("key in a fill's day", ({ inFill }) => inFill);
  row("key in an order's cartons", ({ inDemand }) => inDemand);
  row('key that moves what is below', ({ insert }) => insert);
  row('section header broken', ({ header }) => header);
  row('section header mended', ({ mended }) => mended);
  row('200 lots pasted', ({ paste }) => paste);
  row('200 lots pasted, the first time', ({ paste }) => paste.slice(0, 1));
  row('hover right after a key', ({ hover }) => hover);
  row('completion right after a key', ({ completion }) => completion);
  // Ours answers first and loads then, the other one the other way round: only both together can be compared.
  row('start, open to findings', ({ opened }) => [opened]);
  row('the same, never run before', ({ openedFirst }) => [openedFirst]);
  row('open to findings, once loaded', ({ openLoaded: took }) => [took]);
  printCells(
    'start to first answer',
    cells('ms', ({ start }) => start),
  );
  printCells(
    'first answer to findings',
    cells('ms', ({ open }) => open),
  );
  printCells(
    'memory between keys, median',
    cells('MB', ({ memoryBetween }) => median(memoryBetween)),
  );
  printCells(
    'memory at the end',
    cells('MB', ({ memory }) => memory.now),
  );
  printCells(
    'memory at most',
    cells('MB', ({ memory }) => memory.most),
  );
}

function printCells(name: string, cells: readonly string[]): void {
  console.log(name.padEnd(34) + cells.map((cell) => cell.padStart(12)).join(''));
}

function median(values: readonly number[]): number {
  return quantile(values, 0.5);
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}
