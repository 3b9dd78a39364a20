import { z } from 'zod';

/** A change of a plan's text that is tried and never written. */
const change = z.strictObject({
  file: z.string().describe("The plan file, by its path below the plan's folder."),
  old: z.string().min(1).describe('Text that stands there exactly once.'),
  new: z.string().describe('Text to stand there instead.'),
});

const format = z
  .enum(['text', 'json'])
  .default('text')
  .describe('Text reads well; JSON has the published schema of the same command.');

/** What is asked of a plan: the words of the command line, and changes to try first. */
export interface Asked {
  readonly words: readonly string[];
  readonly changes: readonly z.infer<typeof change>[];
}

/** A question an assistant can put to a plan. Every one only reads. */
export interface Tool {
  readonly name: string;
  readonly title: string;
  readonly description: string;
  readonly input: z.ZodRawShape;
  /** Throws where what is given does not have the shape of `input`. */
  readonly asked: (given: unknown) => Asked;
}

function tool<Shape extends z.ZodRawShape>(
  one: Omit<Tool, 'input' | 'asked'> & {
    readonly input: Shape;
    readonly asked: (input: z.infer<z.ZodObject<Shape>>) => Asked;
  },
): Tool {
  const input = z.object(one.input);
  return { ...one, asked: (given) => one.asked(input.parse(given)) };
}

const plain = (words: readonly string[], chosen: string): Asked => ({
  words: [...words, '--format', chosen],
  changes: [],
});

export const tools: readonly Tool[] = [
  tool({
    name: 'plan_findings',
    title: 'What is wrong or risky in the plan',
    description:
      'Checks the plan: findings with file, line, severity, by how much, from when, and what would cure them.',
    input: { format },
    asked: (input) => plain(['check'], input.format),
  }),
  tool({
    name: 'plan_rooms',
    title: 'What each room holds',
    description: 'Places, bins, tonnes, gas volume and cooling of each room.',
    input: { format },
    asked: (input) => plain(['rooms'], input.format),
  }),
  tool({
    name: 'plan_gas',
    title: "Each room's gas and the shared plant",
    description:
      'Carbon dioxide against scrubbers, nitrogen, tightness of each room; with a room, its course from sealing to opening.',
    input: { format, room: z.string().optional().describe('One room by its identifier.') },
    asked: (input) => plain(input.room === undefined ? ['gas'] : ['gas', '--room', input.room], input.format),
  }),
  tool({
    name: 'plan_windows',
    title: 'When each room may be opened',
    description:
      'The opening window of each room and what sets its edges. Planning figures, never leave to open.',
    input: { format },
    asked: (input) => plain(['windows'], input.format),
  }),
  tool({
    name: 'plan_release',
    title: 'Which room opens in which week',
    description:
      'Finds a release schedule (some seconds): weeks, bins packed, cartons sold and short, and how far from the best it can be.',
    input: {
      format,
      reasons: z
        .boolean()
        .default(false)
        .describe('Why each room opens in its week, and what cures a shortage.'),
    },
    asked: (input) => plain(input.reasons ? ['release', '--reasons'] : ['release'], input.format),
  }),
  tool({
    name: 'explain_figure',
    title: 'How a figure came about',
    description:
      'The derivation of a figure with the lines of the plan and the sources behind it. Names are like R2.free-gas-volume, S1.capacity, R2-gala.latest; a finding code gives its page.',
    input: { figure: z.string().min(1).describe('The name of a figure, an entry, or a finding code.') },
    asked: (input) => ({ words: ['explain', input.figure], changes: [] }),
  }),
  tool({
    name: 'what_if',
    title: 'What a change of the text would do',
    description:
      'Answers one of the questions above as if the text had been changed. Nothing is written: show the change to the planner, who decides.',
    input: {
      changes: z.array(change).min(1).max(50),
      question: z
        .enum(['check', 'rooms', 'gas', 'windows', 'release'])
        .describe('What to ask of the changed plan.'),
      format,
    },
    asked: (input) => ({ words: [input.question, '--format', input.format], changes: input.changes }),
  }),
];
