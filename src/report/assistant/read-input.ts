import type { InputPart, InputSchema } from './questions';

type Read = { readonly value: Readonly<Record<string, unknown>> } | { readonly wrong: string };

/** What an assistant gave, held against the question's input, with defaults filled in; else what is wrong with it. */
export function readInput(schema: InputSchema, given: unknown): Read {
  return readObject(schema, given ?? {}, 'The input');
}

function readObject(schema: InputSchema, given: unknown, what: string): Read {
  if (typeof given !== 'object' || given === null || Array.isArray(given))
    return { wrong: `${what} must be an object with ${Object.keys(schema.properties).join(', ')}.` };
  const unknownKey = Object.keys(given).find((key) => !Object.hasOwn(schema.properties, key));
  if (unknownKey !== undefined)
    return {
      wrong: `${what} has no "${unknownKey}"; it takes ${Object.keys(schema.properties).join(', ')}.`,
    };
  const value: Record<string, unknown> = {};
  for (const [key, part] of Object.entries(schema.properties)) {
    const own: unknown = Object.entries(given).find(([name]) => name === key)?.[1];
    if (own === undefined || own === null) {
      if (schema.required.includes(key)) return { wrong: `${what} lacks "${key}": ${part.description}` };
      if ('default' in part && part.default !== undefined) value[key] = part.default;
      continue;
    }
    const read = readPart(part, own, `"${key}"`);
    if ('wrong' in read) return read;
    value[key] = read.value;
  }
  return { value };
}

function readPart(
  part: InputPart,
  given: unknown,
  what: string,
): { readonly value: unknown } | { readonly wrong: string } {
  switch (part.type) {
    case 'boolean':
      return typeof given === 'boolean' ? { value: given } : { wrong: `${what} must be true or false.` };
    case 'string':
      if (typeof given !== 'string') return { wrong: `${what} must be text.` };
      if (part.enum && !part.enum.includes(given))
        return { wrong: `${what} must be one of ${part.enum.join(', ')}.` };
      return given.length < (part.minLength ?? 0)
        ? { wrong: `${what} must not be empty.` }
        : { value: given };
    case 'array': {
      if (!Array.isArray(given) || given.length < part.minItems || given.length > part.maxItems)
        return { wrong: `${what} must be a list of ${part.minItems} to ${part.maxItems}.` };
      const values: unknown[] = [];
      for (const one of given) {
        const read = readObject(part.items, one, `Each of ${what}`);
        if ('wrong' in read) return read;
        values.push(read.value);
      }
      return { value: values };
    }
  }
}
