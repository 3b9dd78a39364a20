/** The part of JSON Schema that the plan language uses, with the facts about keys that travel in it as `x-` keys. */
export interface Schema {
  readonly $schema?: string;
  readonly $id?: string;
  readonly title?: string;
  readonly description?: string;
  readonly type?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | Schema;
  readonly propertyNames?: Schema;
  readonly items?: Schema;
  readonly minItems?: number;
  readonly pattern?: string;
  readonly minLength?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly enum?: readonly (string | number)[];
  readonly const?: unknown;
  readonly examples?: readonly unknown[];
  /** The version of the plan language. */
  readonly 'x-version'?: number;
  /** What holds where the key is left out, as text. */
  readonly 'x-default'?: string;
  /** Name of the dimension of a quantity; its computing unit is in `x-unit`. */
  readonly 'x-dimension'?: string;
  readonly 'x-unit'?: string;
  /** Limits of a quantity in `x-unit`: above (exclusive), at least, at most. */
  readonly 'x-above'?: number;
  readonly 'x-least'?: number;
  readonly 'x-most'?: number;
  readonly 'x-kind'?: 'day' | 'day-span' | 'week' | 'week-span';
  /** What the keys of a map are, where they are not entries' identifiers. */
  readonly 'x-key-kind'?: 'week' | 'day' | 'code' | 'class' | 'field';
  /** The section whose entries the value, or the map's keys, name. */
  readonly 'x-refers-to'?: string;
  readonly 'x-key-refers-to'?: string;
  /** What a text names that is no entry of a section. */
  readonly 'x-names'?: 'market' | 'class' | 'grower' | 'code' | 'demand';
  /** What stands below is as in the plan itself, and is checked as it is there. */
  readonly 'x-like-plan'?: boolean;
  /** The section that the map's keys define. */
  readonly 'x-section'?: string;
}
