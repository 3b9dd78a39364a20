/** One thing a validator found, as ajv reports it. */
export interface SchemaError {
  /** JSON pointer to the value. */
  readonly instancePath: string;
  /** JSON pointer to the schema's keyword. */
  readonly schemaPath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
  readonly propertyName?: string;
}

export interface Validator {
  (data: unknown): boolean;
  errors?: SchemaError[] | null;
}
