import { z } from 'zod';
import { day, finding, header, measure, place, severity, source, week } from './parts';
import { roomReason } from './reason';

const stepCommon = {
  id: z.string(),
  name: z.string(),
  value: z.number(),
  unit: z.string().meta({ description: 'The unit the value is computed in; formulas hold in these units.' }),
  shown: measure.optional(),
  beside: z
    .array(
      z.strictObject({
        kind: z.enum(['closed form', 'terms']),
        step: z.string().meta({ description: 'The step that gives it.' }),
        because: z.string().meta({ description: 'Where a difference comes from, or what the terms say.' }),
      }),
    )
    .optional()
    .meta({
      description:
        'Of a step that is integrated or counted: the same by a closed formula, or the terms that are in it.',
    }),
};

const step = z.discriminatedUnion('kind', [
  z.strictObject({
    ...stepCommon,
    kind: z.literal('plan'),
    place,
    text: z.string(),
    source: z
      .string()
      .optional()
      .meta({ description: "Where the planner has the value from, in the plan's own words." }),
  }),
  z.strictObject({ ...stepCommon, kind: z.literal('counted'), what: z.string(), places: z.array(place) }),
  z.strictObject({ ...stepCommon, kind: z.literal('reference'), source }),
  z.strictObject({
    ...stepCommon,
    kind: z.literal('computed'),
    formula: z.string(),
    inputs: z
      .record(z.string(), z.string())
      .meta({ description: 'The step that each name in the formula stands for.' }),
    source: source.optional(),
  }),
]);

const known = z.enum(['published', 'common practice', 'from memory', 'plan']).meta({
  description: 'How well the least known of the values is known; `plan` where the planner gives it.',
});
const life = z
  .strictObject({ shortestDays: z.number(), longestDays: z.number(), known })
  .meta({ description: 'How long fruit keeps; the same twice where the source gives no range.' });

const variety = z.strictObject({
  name: z.string(),
  fruit: z.enum(['apple', 'pear']),
  aliases: z.array(z.string()),
  regimes: z.array(z.string()).meta({ description: 'Regimes that suit it, the usual one first.' }),
  lifeInAir: life,
  lifeInStore: life,
});

const regime = z.strictObject({
  name: z.string(),
  varieties: z.array(z.string()),
  temperature: measure.optional(),
  oxygen: measure.optional().meta({ description: 'Absent for a regime in air.' }),
  carbonDioxide: measure.optional(),
  known,
  life: life.optional().meta({ description: "Absent where the variety's own life stands." }),
});

const rule = z.strictObject({ code: z.string(), family: z.string(), severity, summary: z.string() });

export const explainReport = z
  .strictObject({
    ...header('explain'),
    subject: z.strictObject({
      kind: z.string(),
      id: z.string(),
      summary: z.string().optional(),
      places: z.array(place),
    }),
    figures: z.array(
      z.strictObject({
        id: z.string(),
        name: z.string(),
        step: z.string(),
        shown: measure.optional(),
        week: week.optional().meta({ description: "Of an opening window's edge: the week it comes to." }),
        countedFrom: z
          .strictObject({ day, what: z.string() })
          .optional()
          .meta({ description: "Of an opening window's edge: the day its days count from." }),
      }),
    ),
    steps: z
      .array(step)
      .meta({ description: 'Inputs before what is computed from them; a shared input once.' }),
    reason: roomReason
      .extend({
        opens: week.optional().meta({ description: 'Absent for a room the schedule leaves closed.' }),
      })
      .optional()
      .meta({ description: 'For a room or fill: why it opens in its week in a quickly found schedule.' }),
    page: z.string().optional().meta({ description: "For a finding's code: its page, as Markdown." }),
    caution: z.string().optional().meta({ description: 'Where a figure speaks of opening a room.' }),
    varieties: z.array(variety).optional().meta({ description: 'Of `lotwright explain varieties`.' }),
    regimes: z.array(regime).optional().meta({ description: 'Of `lotwright explain regimes`.' }),
    rules: z.array(rule).optional().meta({ description: 'Of `lotwright explain findings`.' }),
    names: z
      .array(
        z.strictObject({
          kind: z.string().meta({ description: 'What has the figure: a room, a scrubber and so on.' }),
          name: z.string().meta({
            description:
              'After a point behind the identifier; `<day>`, `<week>`, `<lot>`, `<fill>` stand for one.',
          }),
          what: z.string(),
          unit: z.string(),
          alsoCalled: z.array(z.string()),
        }),
      )
      .optional()
      .meta({ description: 'Of `lotwright explain figures`: the names of the figures that the plan has.' }),
    findings: z.array(finding),
  })
  .meta({ title: 'Lotwright explain report', description: 'Printed by `lotwright explain --format json`.' });
