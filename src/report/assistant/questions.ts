/**
 * The questions that an assistant can put to a plan: one list for the editor's language-model tools and for the server
 * of the Model Context Protocol. Input is told as JSON Schema, in the few words that `read-input.ts` understands.
 */

export interface InputSchema {
  readonly type: 'object';
  readonly properties: Readonly<Record<string, InputPart>>;
  readonly required: readonly string[];
  readonly additionalProperties: false;
}

export type InputPart =
  | {
      readonly type: 'string';
      readonly description: string;
      readonly enum?: readonly string[];
      readonly default?: string;
      readonly minLength?: number;
    }
  | { readonly type: 'boolean'; readonly description: string; readonly default: boolean }
  | {
      readonly type: 'array';
      readonly description: string;
      readonly items: InputSchema;
      readonly minItems: number;
      readonly maxItems: number;
    };

export interface Question {
  /** Letters and underscores: what an assistant calls it by. */
  readonly name: QuestionName;
  /** For people. */
  readonly title: string;
  /** For the assistant: what it is told, and when to ask. */
  readonly description: string;
  readonly input: InputSchema;
}

export const questionNames = [
  'lotwright_findings',
  'lotwright_rooms',
  'lotwright_gas',
  'lotwright_windows',
  'lotwright_release',
  'lotwright_explain',
  'lotwright_what_if',
] as const;
export type QuestionName = (typeof questionNames)[number];

/** What can be asked of a plan as it is, and of one with a change. */
export const subjects = ['check', 'rooms', 'gas', 'windows', 'release'] as const;
export type Subject = (typeof subjects)[number];

const format: InputPart = {
  type: 'string',
  enum: ['text', 'json'],
  default: 'text',
  description: 'Text reads well; JSON has the published schema of the same command.',
};

const change: InputSchema = object(
  {
    file: {
      type: 'string',
      description: "The plan file, by its path below the plan's folder.",
      minLength: 1,
    },
    old: { type: 'string', description: 'Text that stands there exactly once.', minLength: 1 },
    new: { type: 'string', description: 'Text to stand there instead.' },
  },
  ['file', 'old', 'new'],
);

export const questions: readonly Question[] = [
  {
    name: 'lotwright_findings',
    title: 'What is wrong or risky in the plan',
    description:
      'Checks the plan: findings with file, line, severity, by how much, from when, and what would cure them.',
    input: object({ format }),
  },
  {
    name: 'lotwright_rooms',
    title: 'What each room holds',
    description: 'Places, bins, tonnes, gas volume and cooling of each room.',
    input: object({ format }),
  },
  {
    name: 'lotwright_gas',
    title: "Each room's gas and the shared plant",
    description:
      'Carbon dioxide against scrubbers, nitrogen, tightness of each room; with a room, its course from sealing to opening.',
    input: object({
      format,
      room: { type: 'string', description: 'One room by its identifier.', minLength: 1 },
    }),
  },
  {
    name: 'lotwright_windows',
    title: 'When each room may be opened',
    description:
      'The opening window of each room and what sets its edges. Planning figures, never leave to open.',
    input: object({
      format,
      room: { type: 'string', description: 'One room by its identifier.', minLength: 1 },
    }),
  },
  {
    name: 'lotwright_release',
    title: 'Which room opens in which week',
    description:
      'Finds a release schedule (some seconds): weeks, bins packed, cartons sold and short, and how far from the best it can be.',
    input: object({
      format,
      reasons: {
        type: 'boolean',
        default: false,
        description: 'Why each room opens in its week, and what cures a shortage.',
      },
    }),
  },
  {
    name: 'lotwright_explain',
    title: 'How a figure came about',
    description:
      'The derivation of a figure with the lines of the plan and the sources behind it. Names are like R2.free-gas-volume, S1.capacity, R2-gala.latest; a finding code gives its page.',
    input: object(
      {
        figure: {
          type: 'string',
          description: 'The name of a figure, an entry, or a finding code.',
          minLength: 1,
        },
      },
      ['figure'],
    ),
  },
  {
    name: 'lotwright_what_if',
    title: 'What a change of the text would do',
    description:
      'Answers one of the questions above as if the text had been changed. Nothing is written: show the change to the planner, who decides.',
    input: object(
      {
        changes: {
          type: 'array',
          description: 'Changes to try, one after the other.',
          items: change,
          minItems: 1,
          maxItems: 50,
        },
        question: { type: 'string', enum: subjects, description: 'What to ask of the changed plan.' },
        format,
      },
      ['changes', 'question'],
    ),
  },
];

function object(properties: InputSchema['properties'], required: readonly string[] = []): InputSchema {
  return { type: 'object', properties, required, additionalProperties: false };
}
