/**
 * What goes with every figure about opening or entering a sealed room. A room can hold a level at the sensor and
 * another in a corner, so no computed figure ever stands for a reading.
 */
export const caution =
  'Sealed rooms kill: air below 19.5 % oxygen is immediately dangerous. This is a planning figure for when to call ' +
  'the crew, not leave to enter. Before anyone goes in, read oxygen and carbon dioxide, both, with a calibrated ' +
  'instrument. Local codes and trained, licensed people come first and decide.';

/** The same in two sentences, for a place too small for all of it. */
export const cautionInShort =
  'Sealed rooms kill. These are planning figures, not leave to enter: first read oxygen and carbon dioxide, both, with ' +
  'a calibrated instrument. Local codes and trained, licensed people decide.';

/** The same where there is room for a title only, of something that sets the week in which a room is opened. */
export const cautionInTitle =
  'not leave to enter: first oxygen and carbon dioxide readings, local codes and licensed people';

/** What stands in a finding's place for it where the report has told it in full before. */
const POINTER = 'The caution above comes first.';

/** A text in which the caution, or its short form, is pointed to and not told again; the same where it has neither. */
export function withCautionAbove(text: string): string {
  return text.replaceAll(caution, POINTER).replaceAll(cautionInShort, POINTER);
}

/** Whether a text holds the caution, in full or in short. */
export function isCautioned(text: string): boolean {
  return text.includes(caution) || text.includes(cautionInShort);
}

/** What goes with lime handling. */
export const limeCaution =
  'Lime dust burns eyes, skin and lungs. Follow the safety data sheet and local codes; trained people with the ' +
  'protection it names handle the bags. Lime inside a room is changed only by trained, licensed people, as local ' +
  'codes ask, after oxygen and carbon dioxide, both, have been read there with a calibrated instrument.';

/** What goes with refrigeration work, in the engine room and at a cooler inside a room. */
export const refrigerantCaution =
  'Refrigerants can poison (ammonia does), burn or take the place of air, and sealed rooms kill. Local codes and ' +
  'trained, licensed people come first and decide. Before anyone goes in or work begins, read oxygen, carbon dioxide ' +
  'and refrigerant, all three, with calibrated instruments.';
