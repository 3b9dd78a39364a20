import { z } from 'zod';
import { finding, header, measure, place, source, week } from './parts';
import { roomReason } from './reason';

const stepCommon = {
  id: z.string(),
  name: z.string(),
  value: z.number(),
  unit: z.string().meta({ description: 'The unit the value is computed in; formulas hold in these units.' }),
  shown: measure.optional(),
};

const step = z.discriminatedUnion('kind', [
  z.strictObject({ ...stepCommon, kind: z.literal('plan'), place, text: z.string() }),
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
      z.strictObject({ id: z.string(), name: z.string(), step: z.string(), shown: measure.optional() }),
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
    findings: z.array(finding),
  })
  .meta({ title: 'Lotwright explain report', description: 'Printed by `lotwright explain --format json`.' });
