import { nearest } from '../nearest';
import type { Fix, Problem } from '../problem';
import { isEmpty } from '../text/nodes';
import { listed, quoted } from '../text/say';
import { type Checked, nameOf, problemAt } from './checked';
import { thousandsProblem } from './comma-messages';
import { spanProblem } from './date-messages';
import { identifierMessage } from './key-messages';
import { digitsOf, withoutNoughts } from './letters-for-digits';
import { quantityProblem } from './quantity-messages';
import { exampleOf } from './schema';
import type { SchemaError } from './validator-types';

/** What is wrong with a value that the schema refuses. */
export function badValue(checked: Checked, error: SchemaError): Problem {
  const { node, schema, key } = checked;
  if (node.kind === 'scalar' && (isEmpty(node) || node.value === null || node.value === ''))
    return problemAt(checked, 'missing-value', emptyMessage(checked), isEmpty(node) ? key : node);
  if (node.kind !== 'scalar') return wrongType(checked, error);
  const text = typeof node.value === 'string' ? node.value : node.raw;
  if (schema['x-dimension'] && typeof node.value !== 'boolean')
    return thousandsProblem(checked, text, 'not-a-quantity') ?? quantityProblem(checked, text);
  if (schema['x-kind']) return spanProblem(checked, text, node);
  if (schema.enum) return notAllowed(checked, text);
  if (schema['x-refers-to']) return problemAt(checked, 'bad-identifier', identifierMessage(text), node);
  if (error.keyword === 'minimum' || error.keyword === 'maximum') return outOfRange(checked);
  if (typeof node.value === 'string' && (schema.type === 'integer' || schema.type === 'number'))
    return notANumber(checked, node.value);
  return wrongType(checked, error);
}

function emptyMessage(checked: Checked): string {
  const { schema, path, item } = checked;
  const example = exampleOf(schema);
  const name = path.length === 0 ? item.key.name : nameOf(checked);
  if (path.length === 0) {
    const keys = (schema.required ?? []).map((key) => `\`${key}\``);
    return `${quoted(name)} is empty.${keys.length > 0 ? ` It needs ${listed(keys)}.` : ' Add what belongs to it, or delete it.'}`;
  }
  return `${quoted(name)} has no value yet.${example ? ` Write for example \`${example}\`.` : ''}`;
}

function notAllowed(checked: Checked, text: string): Problem {
  const { schema, node } = checked;
  const words = (schema.enum ?? []).map(String);
  const meant = nearest(text, words);
  return problemAt(
    checked,
    'not-allowed-value',
    `${quoted(text)} is not one of the words allowed here: ${listed(words, 'or', 12)}.`,
    node,
    meant ? [replacement(checked, meant)] : [],
  );
}

function outOfRange(checked: Checked): Problem {
  const { schema, node } = checked;
  const { minimum, maximum } = schema;
  const value = node.kind === 'scalar' ? Number(node.value) : Number.NaN;
  // A limit against slips of the keyboard is told to whom it met.
  const isFar = maximum !== undefined && maximum >= FROM_THOUSANDS && value <= maximum;
  const most = maximum === undefined || isFar ? undefined : inThousands(maximum);
  const range =
    minimum === undefined
      ? `at most ${most}`
      : most === undefined
        ? `${minimum} or more`
        : `${minimum} to ${most}`;
  const raw = node.kind === 'scalar' ? node.raw : '';
  return problemAt(
    checked,
    'out-of-range',
    `${quoted(raw)} cannot be: \`${nameOf(checked)}\` is ${range}.`,
    node,
  );
}

const FROM_THOUSANDS = 10_000;

/** `1,000,000,000`: a limit that nobody could count the noughts of. */
function inThousands(limit: number): string {
  return limit < FROM_THOUSANDS ? String(limit) : limit.toLocaleString('en-US');
}

function notANumber(checked: Checked, text: string): Problem {
  const thousands = thousandsProblem(checked, text.trim(), 'wrong-type');
  if (thousands) return thousands;
  const what = checked.schema.type === 'integer' ? 'a whole number' : 'a number';
  const match = /^([+-]?\d+(?:[.,]\d+)?)(.*)$/s.exec(text.trim());
  const number = match?.[1]?.replace(',', '.');
  const isGood = number !== undefined && (checked.schema.type === 'number' || /^[+-]?\d+$/.test(number));
  const rest = match?.[2]?.trim() ?? '';
  // Nothing is wrong with the number: the quotes alone make it a text.
  if (isGood && number === text.trim())
    return problemAt(
      checked,
      'wrong-type',
      `${quoted(number)} stands in quotes, so it is a text; \`${nameOf(checked)}\` needs ${what}. Take the quotes off.`,
      checked.node,
      [replacement(checked, number)],
    );
  const meant = withDigits(text.trim(), checked.schema.type === 'integer');
  if (meant !== undefined)
    return problemAt(
      checked,
      'wrong-type',
      `${quoted(text)} is not ${what}, which \`${nameOf(checked)}\` needs: a letter stands where a digit belongs. Write ${quoted(meant)} if that is meant, or the right number.`,
      checked.node,
      [replacement(checked, meant)],
    );
  const why = match?.[1]?.includes(',')
    ? ' Decimals have a point.'
    : rest !== '' && isGood
      ? ' It has no unit.'
      : '';
  return problemAt(
    checked,
    'wrong-type',
    `${quoted(text)} is not ${what}, which \`${nameOf(checked)}\` needs.${why} ${exampleText(checked)}`,
    checked.node,
    isGood && rest.length < 12 && !/\d/.test(rest) && !endsInLetter(text.trim())
      ? [replacement(checked, number)]
      : [],
  );
}

/** `12O` as the number it looks like; undefined for what holds other letters, or none. */
function withDigits(text: string, isWhole: boolean): string | undefined {
  const number = digitsOf(text);
  const isNumber = isWhole ? /^[+-]?\d+$/ : /^[+-]?\d+(?:\.\d+)?$/;
  return number !== text && /\d/.test(text) && isNumber.test(number) ? withoutNoughts(number) : undefined;
}

/** `7B`: a single letter behind the digits may have been meant for one more of them. */
function endsInLetter(text: string): boolean {
  return /\d[a-z]$/i.test(text);
}

const KINDS: Readonly<Record<string, string>> = {
  object: 'keys and their values',
  array: 'a list',
  string: 'a text',
  integer: 'a whole number',
  number: 'a number',
  boolean: 'true or false',
};

function wrongType(checked: Checked, error: SchemaError): Problem {
  const { node, schema, path, item } = checked;
  const name = path.length === 0 ? item.key.name : nameOf(checked);
  if (error.keyword === 'minItems')
    return problemAt(
      checked,
      'missing-value',
      `${quoted(name)} needs at least ${schema.minItems} ${schema.minItems === 1 ? 'item' : 'items'}. ${exampleText(checked)}`,
      node,
    );
  const expected = KINDS[schema.type ?? ''] ?? 'something else';
  const isNumberForText = node.kind === 'scalar' && schema.type === 'string';
  const found =
    node.kind === 'scalar' ? quoted(node.raw) : node.kind === 'list' ? 'a list' : 'keys and their values';
  return problemAt(
    checked,
    'wrong-type',
    isNumberForText
      ? `${quoted(name)} is a text, but YAML reads ${found} as ${typeof node.value === 'boolean' ? 'true or false' : 'a number'}. Put it in quotes.`
      : `${quoted(name)} holds ${expected}, not ${found}. ${exampleText(checked)}`,
    node.kind === 'scalar' ? node : checked.key,
    isNumberForText ? textsMeant(checked, node.raw) : [],
  );
}

/** The number as a text. A column called `02` is `O2`, the sign of oxygen: by another name its oxygen would not be read. */
function textsMeant(checked: Checked, raw: string): Fix[] {
  const isColumn = checked.path.at(-2) === 'columns';
  if (isColumn && raw === '02') return [replacement(checked, 'O2')];
  return [replacement(checked, `'${raw.replaceAll("'", "''")}'`)];
}

function exampleText({ schema }: Checked): string {
  const example = exampleOf(schema);
  return example === undefined ? '' : `Write for example \`${example}\`.`;
}

function replacement({ node }: Checked, newText: string): Fix {
  const at = { file: '', start: node.start, end: node.end };
  return { title: `Write \`${newText}\``, edits: [{ at, newText }] };
}
