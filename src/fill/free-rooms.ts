import type { Fill, Plan, Room } from '../plan/model';
import { roomCapacity } from '../room/capacity';
import type { FreeRoom, HeldFruit, LeftOut, RegimeChoice } from './types';
import { weights } from './weights';

export function byId(a: { readonly id: string }, b: { readonly id: string }): number {
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}

/**
 * The rooms that no fill uses, in the order of their names, and with them those of `begun` that have places left. Those
 * whose places are not known go to `leftOut`.
 */
export function freeRooms(
  plan: Plan,
  fills: readonly Fill[],
  regimes: readonly RegimeChoice[],
  begun: ReadonlyMap<string, HeldFruit>,
  leftOut: LeftOut[],
): FreeRoom[] {
  const used = new Set(fills.map(({ room }) => room?.value));
  const all = [...plan.rooms.values()];
  const saysPlant = all.some(hasPlant);
  const hasLime = all.some((room) => isLime(plan, room));
  return all
    .filter(({ id }) => !used.has(id) || begun.has(id))
    .sort(byId)
    .flatMap((room) => {
      const binType = room.binType && plan.binTypes.get(room.binType.value);
      const places = Math.floor(roomCapacity(room, binType).places?.value ?? 0);
      if (!(places > 0)) {
        const reason = 'its bin places are not known: give `inside` with `bin-type`, or `places`';
        leftOut.push({ what: room.id, bins: 0, reason });
        return [];
      }
      const held = begun.get(room.id);
      if (held && held.bins >= places) return [];
      // A hair more, so that a share of places that is whole is not lost to the last binary digit.
      const binsADay = Math.floor((places * plan.policy.intakeADay.value) / 100 + 1e-9);
      // A plan that speaks of no scrubber or nitrogen anywhere says nothing of what its rooms can do.
      const sealable = !saysPlant || hasPlant(room);
      return [
        {
          id: room.id,
          places,
          binsADay: Math.max(1, Math.min(places, binsADay)),
          ready: room.ready?.value ?? null,
          sealable,
          costInRegime: regimes.map((regime) =>
            regime.sealed
              ? limeCost(hasLime, isLime(plan, room), regime)
              : saysPlant && sealable
                ? weights.sealableInAir
                : 0,
          ),
          ...(held && { held }),
        },
      ];
    });
}

function hasPlant(room: Room): boolean {
  return room.scrubber !== undefined || room.nitrogen !== undefined;
}

function isLime(plan: Plan, { scrubber }: Room): boolean {
  return scrubber !== undefined && plan.scrubbers.get(scrubber.value)?.kind === 'lime';
}

function limeCost(hasLime: boolean, lime: boolean, regime: RegimeChoice): number {
  return hasLime && lime !== regime.lowCarbonDioxide ? weights.limeElsewhere : 0;
}
