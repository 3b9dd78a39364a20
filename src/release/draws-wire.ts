import type { DrawInputs, RoomDraw } from './draw-inputs';

/** What drawing seasons needs to know, as lists and numbers alone: it crosses from process to process as JSON. */
export interface DrawInputsOnWire extends Omit<DrawInputs, 'rooms'> {
  readonly rooms: readonly (Omit<RoomDraw, 'varieties'> & {
    readonly varieties: readonly (readonly [variety: string, share: number])[];
  })[];
}

export function inputsToWire({ ranges, rooms }: DrawInputs): DrawInputsOnWire {
  return { ranges, rooms: rooms.map((room) => ({ ...room, varieties: [...room.varieties] })) };
}

export function inputsFromWire({ ranges, rooms }: DrawInputsOnWire): DrawInputs {
  return { ranges, rooms: rooms.map((room) => ({ ...room, varieties: new Map(room.varieties) })) };
}
