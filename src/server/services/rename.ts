import { itemName } from '../../plan/check/item-kinds';
import { renameEntry } from '../../plan/edits';
import type { Plan } from '../../plan/model';
import type { TextEdit } from '../../plan/problem';
import { entriesOf } from '../../plan/sections';
import type { Span } from '../../plan/span';
import { type EntryName, entryNameAt, type PlacePoint } from './entries';

/** What can be renamed at a place, and how it reads now. */
export interface Renameable {
  readonly at: Span;
  readonly placeholder: string;
}

/** Why a name stays as it is, for the planner to read. */
export interface Refused {
  readonly refused: string;
}

/** The entry whose name stands at the place, where it is one of the plan's own. */
export function renameableAt(plan: Plan, point: PlacePoint): Renameable | Refused {
  const name = entryNameAt(plan, point);
  if (!name) return { refused: 'There is no name of an entry here to change.' };
  const refused = whyFixed(plan, name);
  return refused === undefined ? { at: name.at, placeholder: name.id } : { refused };
}

/**
 * Edits that give the entry at the place another name wherever the plan defines or names it. Refused where the name is
 * built in, is no identifier, or belongs to another entry of the section already.
 */
export function renamedAt(plan: Plan, point: PlacePoint, newId: string): readonly TextEdit[] | Refused {
  const name = entryNameAt(plan, point);
  if (!name) return { refused: 'There is no name of an entry here to change.' };
  const refused = whyFixed(plan, name);
  if (refused !== undefined) return { refused };
  if (newId === name.id) return [];
  const kind = itemName(name.section);
  if (entriesOf(plan, name.section).has(newId))
    return { refused: `There is a ${kind} ${newId} already. Choose another name.` };
  const edits = renameEntry(plan, name.section, name.id, newId);
  if (edits) return edits;
  return {
    refused: `${JSON.stringify(newId)} cannot name a ${kind}: a name starts with a letter, then letters, digits, spaces and . _ / ' - follow.`,
  };
}

/** Built-in fruit keeps its name; a name that nothing defines has nothing to be renamed. */
function whyFixed(plan: Plan, { section, id }: EntryName): string | undefined {
  if (entriesOf(plan, section).has(id)) return undefined;
  const kind = itemName(section);
  return `No file of the plan defines the ${kind} ${id}, so its name cannot be changed here.`;
}
