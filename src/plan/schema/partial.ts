import { z } from 'zod';

/**
 * The same shape with nothing required, however deep in its maps: what a change of an entry may say of it. What stands
 * in lists is whole, since a list is put in the place of the one there was.
 */
export function partOf(type: z.ZodType): z.ZodType {
  if (type instanceof z.ZodOptional) return partOf(type.unwrap() as z.ZodType).optional();
  const meta = type.meta() ?? {};
  if (type instanceof z.ZodObject) {
    const shape = Object.entries(type.shape as Record<string, z.ZodType>).map(
      ([key, value]) => [key, partOf(value).optional()] as const,
    );
    return z.strictObject(Object.fromEntries(shape)).meta(meta);
  }
  if (type instanceof z.ZodRecord)
    return z.record(type.keyType as z.ZodString, partOf(type.valueType as z.ZodType)).meta(meta);
  return type;
}
