import { BIN_KG } from './market';
import { flow, groupBy } from './text';
import type { GeneratedFill, GeneratedRoom } from './types';

/** Carbon dioxide a scrubber must be able to take out, kilograms a day for each tonne of fruit, at its rooms' level. */
const REMOVAL_A_TONNE: readonly number[] = [0.044, 0.05, 0.046, 0.042, 0.036];
/** Level the scrubbers' makers rate them at, and the level these rooms are held at. */
const RATED_AT = 3;

/** Nitrogen for each tonne of fruit behind a source, cubic metres an hour at 97 %. */
const NITROGEN_A_TONNE = 0.055;

/** Scrubbers, nitrogen and refrigeration, sized for the fruit behind them. */
export function plantText(fills: readonly GeneratedFill[], rooms: readonly GeneratedRoom[]): string {
  return `# Equipment the rooms share. Which room hangs on what stands with the room.
lotwright: 1

plant:
  # Two-bed carbon scrubbers. Removal is the maker's figure at 3 % carbon dioxide and falls with the level held;
  # those that hold a low level are a size larger for the same fruit. Each bed is rinsed with nitrogen from the rooms'
  # plant before it turns to a room, or the air in it would raise their oxygen.
  scrubbers:
${scrubbers(fills)}
  # Start lean and fast, finish pure and slow.
  nitrogen:
${nitrogen(fills)}
  # North and east hang on the old ammonia plant, west on its own.
  refrigeration:
${refrigeration(fills, rooms)}
`;
}

function scrubbers(fills: readonly GeneratedFill[]): string {
  const groups = [...groupBy(sealedOnly(fills), (fill) => fill.room.scrubber)].sort(byNumber);
  return groups
    .map(([id, served], index) => {
      const low = served[0]?.room.lowCarbonDioxide ?? false;
      const heldAt = low ? 0.8 : 1.8;
      const perTonne = (REMOVAL_A_TONNE[index % REMOVAL_A_TONNE.length] as number) * together(served.length);
      const removal = Math.max(10, roundTo((tonnes(served) * perTonne * RATED_AT) / heldAt, 5));
      const beds = flow({
        number: 2,
        carbon: `${roundTo(removal * 0.9, 10)} kg`,
        adsorb: '8 min',
        regenerate: '8 min',
        'void-volume': `${Math.max(0.1, Math.round(removal * 0.028) / 10).toFixed(1)} m3`,
        rinsed: '80 %',
      });
      return `    ${id}:
      kind: carbon
      removal: ${removal} kg/day
      at-level: ${RATED_AT} %
      beds: ${beds}`;
    })
    .join('\n');
}

function nitrogen(fills: readonly GeneratedFill[]): string {
  const groups = [...groupBy(sealedOnly(fills), (fill) => fill.room.nitrogen)].sort(byNumber);
  return groups
    .map(([id, served], index) => {
      const flowAt97 = Math.max(20, roundTo(tonnes(served) * NITROGEN_A_TONNE, 5));
      const kind = index % 3 === 1 ? 'adsorption' : 'membrane';
      const shares: [string, number][] =
        kind === 'membrane'
          ? [
              ['95 %', 1.5],
              ['97 %', 1],
              ['98.5 %', 0.7],
              ['99.3 %', 0.5],
            ]
          : [
              ['97 %', 1],
              ['99 %', 0.72],
              ['99.5 %', 0.58],
            ];
      const points = shares.map(
        ([purity, share]) => `        - ${flow({ purity, flow: `${roundTo(flowAt97 * share, 5)} m3/h` })}`,
      );
      return `    ${id}:\n      kind: ${kind}\n      flows:\n${points.join('\n')}`;
    })
    .join('\n');
}

function refrigeration(fills: readonly GeneratedFill[], rooms: readonly GeneratedRoom[]): string {
  const groups = groupBy(rooms, groupOf);
  return [...groups]
    .map(([id, served]) => {
      const own = fills.filter((fill) => served.includes(fill.room));
      const capacity = Math.max(40, roundTo(tonnes(own) * COOLING_A_TONNE * together(own.length), 10));
      return `    ${id}: ${flow({ capacity: `${capacity} kW`, refrigerant: id === 'plant-west' ? 'carbon dioxide' : 'ammonia' })}`;
    })
    .join('\n');
}

/** Few rooms peak together, many take turns: shared equipment of a small store is larger for its fruit. */
function together(rooms: number): number {
  return rooms > 6 ? 1 : 2.2 - rooms * 0.2;
}

/** Cooling of a group for each tonne of fruit behind it, kilowatts: not all rooms fill at the same time. */
const COOLING_A_TONNE = 0.058;

/** Cooler of a room for each tonne of its places, kilowatts; the large rooms fill more slowly. */
const COOLER_A_TONNE = { N: 0.235, E: 0.19, W: 0.165 } as const;

/** Cooler of one room, kilowatts. */
export function coolerCapacity(room: GeneratedRoom): number {
  return roundTo(((room.places * BIN_KG) / 1000) * COOLER_A_TONNE[room.building], 2);
}

/** The refrigeration group that serves a room. */
export function groupOf(room: GeneratedRoom): string {
  return room.building === 'W' ? 'plant-west' : 'plant-main';
}

function tonnes(fills: readonly GeneratedFill[]): number {
  const bins = fills.flatMap((fill) => [...fill.lots.values()]).reduce((sum, value) => sum + value, 0);
  return (bins * BIN_KG) / 1000;
}

function sealedOnly(fills: readonly GeneratedFill[]): GeneratedFill[] {
  return fills.filter((fill) => fill.sealed !== undefined);
}

function byNumber([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number {
  return Number(a.replace(/\D/g, '')) - Number(b.replace(/\D/g, ''));
}

function roundTo(value: number, step: number): number {
  return Math.round(value / step) * step;
}
