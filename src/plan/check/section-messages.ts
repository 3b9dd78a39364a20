import { nearest } from '../nearest';
import type { Fix, Problem } from '../problem';
import type { KeyNode } from '../text/nodes';
import { listed, quoted } from '../text/say';
import { type EntrySection, entrySections, itemName, plantSections, singleSections } from './item-kinds';

/** The keys at the top of a plan file. */
export const fileKeys: readonly string[] = ['lotwright', ...singleSections, ...entrySections, 'plant'];

function problem(code: string, message: string, { name, start, end }: KeyNode, fixes: Fix[] = []): Problem {
  return {
    code,
    message,
    at: { file: '', start, end },
    about: name.slice(0, 80),
    ...(fixes.length > 0 ? { fixes } : {}),
  };
}

/** A key at the top of a file, or of `plant`, that is no section. */
export function unknownSection(parent: 'file' | 'plant', key: KeyNode): Problem {
  const known = parent === 'file' ? fileKeys : plantSections;
  const meant = nearest(key.name, known);
  const belongs = (plantSections as readonly string[]).includes(key.name) && parent === 'file';
  const hint = belongs
    ? ' It stands under `plant`.'
    : meant
      ? ` Is \`${meant}\` meant?`
      : ` The sections are ${listed(known, 'and', 20)}.`;
  const where = parent === 'file' ? 'A plan file' : '`plant`';
  const fixes =
    meant && !belongs
      ? [
          {
            title: `Rename to \`${meant}\``,
            edits: [{ at: { file: '', start: key.start, end: key.end }, newText: meant }],
          },
        ]
      : [];
  return problem('unknown-key', `${where} has no section ${quoted(key.name)}.${hint}`, key, fixes);
}

export function sectionEmpty(name: EntrySection | 'plant', key: KeyNode): Problem {
  return problem(
    'missing-value',
    `There is nothing under \`${name}\` yet. Add ${name === 'plant' ? listed(plantSections, 'or') : `a ${itemName(name)}`} below it, indented, or delete the line.`,
    key,
  );
}

export function sectionNotMap(name: EntrySection | 'plant', key: KeyNode): Problem {
  const what =
    name === 'plant'
      ? listed(plantSections)
      : `an identifier for each ${itemName(name)}, a colon, and its values`;
  return problem('wrong-type', `\`${name}\` holds ${what}, each indented below it.`, key);
}
