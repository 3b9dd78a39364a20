import { unitsOf } from '../findings/say';
import type { ComputedSeason } from '../findings/types';
import { streifIndex, termReason } from '../keeping/maturity';
import type { LotKeeping, RoomKeeping } from '../keeping/types';
import { formatDay } from '../plan/dates';
import type { Lot } from '../plan/model';
import type { FilledRoom } from '../room/types';
import { byHandFigures } from './by-hand-figures';
import { courseFigures } from './course-figures';
import { figuresIn, figuresOf, type NamedFigure, named } from './named-figures';
import { fillsByRoom, varietiesOf } from './parts';
import { entryThing, type Thing, withFigures } from './thing';
import { confidenceFigures, windowFigures } from './window-edges';

/** A room has its own figures and those of what goes into it. */
export function roomThings(season: ComputedSeason): Thing[] {
  const byRoom = fillsByRoom(season.filled);
  return [...season.capacities.values()].map((capacity) => {
    const { room } = capacity;
    const fills = byRoom.get(room.id) ?? [];
    const once = fills.length === 1;
    return withFigures(
      {
        kind: 'room',
        id: room.id,
        summary: roomSummary(fills),
        at: [room.at],
        within: [room.places.span, ...fills.map(({ fill }) => fill.places.span)],
      },
      () => [
        ...figuresIn(room.id, room),
        ...figuresOf(room.id, capacity),
        ...fills.flatMap(({ fill }) => fillFigures(season, fill.id, once ? room.id : fill.id)),
      ],
    );
  });
}

function roomSummary(fills: readonly FilledRoom[]): string {
  if (fills.length === 0) return 'A room without a fill';
  const texts = fills.map((filled) => {
    const regime = filled.fill.regime ? `, regime ${filled.fill.regime.value}` : '';
    const sealed = filled.fill.sealed ? `, sealed ${formatDay(filled.fill.sealed.value)}` : '';
    return `fill ${filled.fill.id}: ${varietiesOf(filled).join(', ')}${regime}${sealed}`;
  });
  return `A room with ${texts.join('; ')}`;
}

/** The figures of a fill, named after the fill, or after its room where that has only one. */
export function fillFigures(season: ComputedSeason, fill: string, owner: string): NamedFigure[] {
  const filled = season.filled.get(fill);
  if (!filled) return [];
  const keeping = season.keeping.get(fill);
  return [
    ...figuresOf(owner, filled),
    ...courseFigures(season, filled, owner),
    ...byHandFigures(season, filled, owner),
    ...windowFigures(owner, keeping),
    ...confidenceFigures(owner, season.plan, keeping),
    ...filled.flush.flatMap(({ oxygenTo, volumes, hours }, index) =>
      named(
        owner,
        {
          [`flush-${index + 1}-to`]: oxygenTo,
          [`flush-${index + 1}-volumes`]: volumes,
          [`flush-${index + 1}-hours`]: hours,
        },
        true,
      ),
    ),
    ...filled.intake.flatMap(({ day, heat, binsIn, fieldTemperature }) =>
      named(
        owner,
        {
          [`cooling-${formatDay(day)}`]: heat,
          [`bins-in-${formatDay(day)}`]: binsIn,
          [`field-temperature-${formatDay(day)}`]: fieldTemperature,
        },
        true,
      ),
    ),
    ...filled.lots.flatMap(({ lot, bins, fruit }) =>
      named(owner, { [`${lot.id}-bins`]: bins, [`${lot.id}-fruit`]: fruit }, true),
    ),
    ...lotKeepingFigures(owner, keeping),
  ];
}

function lotKeepingFigures(owner: string, keeping: RoomKeeping | undefined): NamedFigure[] {
  return (keeping?.lots ?? []).flatMap(({ lot, storageLife, spread, disorders }) =>
    named(
      owner,
      {
        [`${lot.id}-storage-life`]: storageLife,
        [`${lot.id}-spread`]: spread,
        ...disorderFigures(`${lot.id}-`, disorders),
      },
      true,
    ),
  );
}

function disorderFigures(prefix: string, disorders: LotKeeping['disorders']) {
  return Object.fromEntries(
    disorders.map(({ disorder, begins }) => [`${prefix}${disorder.id}`, begins] as const),
  );
}

export function lotThing(season: ComputedSeason, lot: Lot): Thing {
  const stays = [...season.keeping.values()].flatMap((keeping) => {
    const found = keeping.lots.find((one) => one.lot.id === lot.id);
    return found ? [{ fill: keeping.filled.fill.id, found }] : [];
  });
  const keeping = () =>
    stays.flatMap(({ fill, found }) => {
      const owner = stays.length === 1 ? lot.id : fill;
      const prefix = stays.length === 1 ? '' : `${lot.id}-`;
      return named(owner, {
        [`${prefix}storage-life`]: found.storageLife,
        [`${prefix}spread`]: found.spread,
        [`${prefix}fruit`]: found.inRoom.fruit,
        ...disorderFigures(prefix, found.disorders),
      });
    });
  const variety = lot.variety ? ` of ${lot.variety.value}` : '';
  const where = stays.length > 0 ? ` in ${stays.map(({ fill }) => fill).join(', ')}` : ', in no fill';
  const terms = stays.flatMap(({ found }) => (found.term ? [`; ${termReason(found, unitsOf(season))}`] : []));
  return entryThing('lot', lot, `A lot${variety}${where}${terms[0] ?? ''}`, () => [
    ...figuresIn(lot.id, lot),
    ...named(lot.id, { 'streif-index': streifIndex(lot.maturity) }),
    ...keeping(),
  ]);
}
