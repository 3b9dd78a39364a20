import { isEntrySection, isSingleSection } from '../check/item-kinds';
import { itemSchema } from '../check/schema';

/** Whether an entry of a section, or a section that stands once, has a key of that name. */
export function isKeyOf(section: string, key: string): boolean {
  if (!isEntrySection(section) && !isSingleSection(section)) return false;
  return Object.hasOwn(itemSchema(section).properties ?? {}, key);
}
