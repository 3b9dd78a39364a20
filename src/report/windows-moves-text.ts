import { listed } from '../plan/wording';
import type { WindowsReport } from './schemas';
import { PAGE_WIDTH, table, wrap } from './table';

type Row = WindowsReport['rooms'][number];
type Move = Row['moves'][number];

/** Moves shown for a room among others; a room asked for alone shows all. */
const MOVES_SHOWN = 4;

/** What sets each room's edges, and what would move its latest week, each change reckoned anew. */
export function movesTable(rooms: readonly Row[]): string[] {
  const known = rooms.filter((row) => row.latest);
  if (known.length === 0) return [];
  return [
    '',
    ...table(
      [
        { title: 'Room' },
        { title: 'Earliest is set by', breaks: true },
        { title: 'Best before is set by', breaks: true },
        { title: 'Would move the latest week, in weeks', breaks: true },
      ],
      known.map((row) => [row.room, setBy(row.earliest), setBy(row.bestBefore), latestMoves(row)]),
    ),
  ];
}

/** `L3: storage life` */
export function setBy(edge: Row['latest']): string {
  return edge ? `${edge.lot === undefined ? '' : `${edge.lot}: `}${edge.limit}` : '';
}

function latestMoves({ moves }: Row): string {
  const moving = moves.filter(({ latestLaterBy }) => latestLaterBy !== 0);
  const shown = moving.slice(0, MOVES_SHOWN).map((move) => `${move.change} ${signed(move.latestLaterBy)}`);
  return shown.length > 0 ? shown.join('; ') : 'nothing tried';
}

function signed(weeks: number): string {
  return weeks > 0 ? `+${weeks}` : String(weeks);
}

/** One room: every edge, every change that moves one. */
export function roomMoves(row: Row): string[] {
  const { earliest, bestBefore, latest, moves, opened } = row;
  if (!earliest || !bestBefore || !latest) return [];
  return [
    '',
    ...table(
      [{ title: 'Edge' }, { title: 'Week' }, { title: 'Set by' }],
      [
        ['earliest', earliest.week, setBy(earliest)],
        ['best before', bestBefore.week, setBy(bestBefore)],
        ['latest', latest.week, setBy(latest)],
      ],
    ),
    ...(opened === undefined ? ['', ...movesOfRoom(moves)] : []),
  ];
}

function movesOfRoom(moves: readonly Move[]): string[] {
  return moves.length === 0
    ? ['No single change that was tried would move an edge.']
    : table(
        [
          { title: 'What would move it', breaks: true },
          { title: 'Earliest' },
          { title: 'Best before' },
          { title: 'Latest' },
          { title: 'Latest by', unit: 'weeks', align: 'right' },
        ],
        moves.map((move: Move) => [
          move.change,
          move.earliest,
          move.bestBefore,
          move.latest,
          move.latestLaterBy === 0 ? '' : signed(move.latestLaterBy),
        ]),
      );
}

/**
 * Disorders that threaten; of many rooms only those of varieties that are highly susceptible, that begin before the room
 * is packed out at the latest, and that nothing lessens.
 */
export function risksTable(rooms: readonly Row[], all: boolean): string[] {
  const rows = rooms.flatMap((row) =>
    row.risks
      .filter(
        ({ susceptible, inWindow, eased }) =>
          all || (susceptible === 'highly' && inWindow && eased === undefined),
      )
      .map((risk) => ({ room: row.room, risk })),
  );
  if (rows.length === 0) return [];
  return [
    '',
    ...table(
      [
        { title: 'Room' },
        { title: 'At risk of', breaks: true },
        { title: 'From' },
        { title: 'To' },
        { title: 'Lots', breaks: true },
        { title: 'Because', breaks: true },
      ],
      rows.map(({ room, risk }) => [
        room,
        `${risk.title} (${risk.variety})`,
        risk.from,
        risk.until ?? 'the end',
        all ? risk.lots.join(', ') : listed(risk.lots, 3),
        `${risk.because === '' ? 'of its variety' : risk.because}${risk.eased === undefined ? '' : `; less so here: ${risk.eased}`}`,
      ]),
    ),
    '',
    ...wrap(
      `Disorders are told with their weeks and not with a chance: no source gives one that holds for every orchard and year.${all ? '' : ' `--room` tells all of a room, and what the sources say.'}`,
      PAGE_WIDTH,
    ),
    ...(all ? told(rows.map(({ risk }) => risk)) : []),
  ];
}

function told(risks: readonly Row['risks'][number][]): string[] {
  const texts = risks.map((one) => `${one.title}: ${one.told} (${one.source.known}: ${one.source.citation})`);
  return [...new Set(texts)].flatMap((text) => ['', ...wrap(text, PAGE_WIDTH)]);
}
