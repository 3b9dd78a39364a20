import fc from 'fast-check';
import type { PlanFile } from '../../src/plan/read';
import { mutate, mutations, stretch } from './mutated';

/** One step of somebody who edits a plan's files. `file` and `at` are taken modulo what there is. */
export type Edit =
  | { readonly kind: 'type'; readonly file: number; readonly steps: readonly Parameters<typeof mutate>[1][] }
  | { readonly kind: 'digit'; readonly file: number; readonly at: number; readonly digit: string }
  | { readonly kind: 'paste'; readonly file: number; readonly at: number; readonly lines: string }
  | {
      readonly kind: 'move';
      readonly file: number;
      readonly at: number;
      readonly to: number;
      readonly count: number;
    }
  | {
      readonly kind: 'word';
      readonly file: number;
      readonly at: number;
      readonly like: number;
      readonly word: number;
    }
  | { readonly kind: 'cut'; readonly file: number; readonly at: number; readonly count: number }
  | { readonly kind: 'undo'; readonly steps: number };

/**
 * Sequences of edits: letters, digits in numbers, one word in another's place, pasted lines, lines cut or moved between
 * files, steps undone.
 */
export function edits(files: readonly PlanFile[]): fc.Arbitrary<Edit[]> {
  const file = fc.nat({ max: files.length - 1 });
  const at = fc.nat({ max: 1_000_000 });
  return fc.array(
    fc.oneof(
      fc.record({ kind: fc.constant('type' as const), file, steps: mutations }),
      fc.record({ kind: fc.constant('digit' as const), file, at, digit: fc.constantFrom('0', '1', '7', '') }),
      fc.record({ kind: fc.constant('paste' as const), file, at, lines: stretch }),
      fc.record({ kind: fc.constant('move' as const), file, at, to: file, count: fc.nat({ max: 8 }) }),
      fc.record({ kind: fc.constant('word' as const), file, at, like: file, word: at }),
      fc.record({ kind: fc.constant('cut' as const), file, at, count: fc.integer({ min: 1, max: 4 }) }),
      fc.record({ kind: fc.constant('undo' as const), steps: fc.integer({ min: 1, max: 3 }) }),
    ),
    { maxLength: 8 },
  );
}

/** The files after each edit. */
export function editedFiles(files: readonly PlanFile[], sequence: readonly Edit[]): PlanFile[][] {
  const states: PlanFile[][] = [[...files]];
  for (const edit of sequence) {
    const now = states.at(-1) ?? [];
    states.push(edit.kind === 'undo' ? (states.at(-1 - edit.steps) ?? now) : edited(now, edit));
  }
  return states.slice(1);
}

function edited(files: readonly PlanFile[], edit: Exclude<Edit, { kind: 'undo' }>): PlanFile[] {
  if (edit.kind === 'type') return withText(files, edit.file, (text) => edit.steps.reduce(mutate, text));
  if (edit.kind === 'digit') return withText(files, edit.file, (text) => digitAt(text, edit.at, edit.digit));
  if (edit.kind === 'paste') return withText(files, edit.file, (text) => linesAt(text, edit.at, edit.lines));
  if (edit.kind === 'word') {
    const words = wordsIn(files[edit.like]?.text ?? '');
    const word = words[edit.word % Math.max(1, words.length)]?.[0] ?? '';
    return withText(files, edit.file, (text) => wordAt(text, edit.at, word));
  }
  const lines = (files[edit.file]?.text ?? '').split('\n');
  const taken = lines.splice(edit.at % lines.length, edit.count);
  const without = withText(files, edit.file, () => lines.join('\n'));
  if (edit.kind === 'cut') return without;
  return taken.length === 0
    ? without
    : withText(without, edit.to, (text) => linesAt(text, edit.at, taken.join('\n')));
}

function withText(files: readonly PlanFile[], which: number, change: (text: string) => string): PlanFile[] {
  return files.map((file, index) => (index === which ? { path: file.path, text: change(file.text) } : file));
}

/** Another digit in one of the text's numbers, or one fewer. */
function digitAt(text: string, at: number, digit: string): string {
  const places = [...text.matchAll(/\d/g)].map(({ index }) => index);
  const place = places[at % Math.max(1, places.length)];
  return place === undefined
    ? text
    : text.slice(0, place) + digit + text.slice(digit === '' ? place + 1 : place);
}

/** Names, numbers, days and units: what a planner puts in another's place leaves a plan that can mostly be read. */
function wordsIn(text: string): RegExpMatchArray[] {
  return [...text.matchAll(/[\w.°%-]+/g)];
}

function wordAt(text: string, at: number, word: string): string {
  const words = wordsIn(text);
  const old = words[at % Math.max(1, words.length)];
  return old === undefined
    ? text
    : text.slice(0, old.index) + word + text.slice((old.index ?? 0) + old[0].length);
}

function linesAt(text: string, at: number, pasted: string): string {
  const lines = text.split('\n');
  lines.splice(at % (lines.length + 1), 0, pasted);
  return lines.join('\n');
}
