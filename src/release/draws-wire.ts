import type { DrawInputs, RoomDraw } from './draw-inputs';

/** What drawing seasons needs to know, as lists and numbers alone: it crosses from process to process as JSON. */
export interface DrawInputsOnWire extends Omit<DrawInputs, 'rooms'> {
  readonly rooms: readonly (Omit<RoomDraw, 'varieties'> & {
    readonly varieties: readonly (readonly [variety: string, share: number])[];
  })[];
}

export function inputsToWire({ rooms, ...plain }: DrawInputs): DrawInputsOnWire {
  return { ...plain, rooms: rooms.map((room) => ({ ...room, varieties: [...room.varieties] })) };
}

export function inputsFromWire({ rooms, ...plain }: DrawInputsOnWire): DrawInputs {
  return { ...plain, rooms: rooms.map((room) => ({ ...room, varieties: new Map(room.varieties) })) };
}
