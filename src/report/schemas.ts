import type { z } from 'zod';
import { caRecordReport } from './schema/ca-record';
import { checkReport } from './schema/check';
import { compareReport } from './schema/compare';
import { courseReport } from './schema/course';
import { expectReport } from './schema/expect';
import { explainReport } from './schema/explain';
import { fillReport } from './schema/fill';
import { gasReport } from './schema/gas';
import { learnReport } from './schema/learn';
import { outlineReport } from './schema/outline';
import { papersReport } from './schema/papers';
import { plantReport } from './schema/plant';
import { readingsReport } from './schema/readings';
import { releaseReport } from './schema/release';
import { roomsReport } from './schema/rooms';
import { samplingReport } from './schema/sampling';
import { schemaListReport } from './schema/schema-list';
import { statusReport } from './schema/status';
import { takeInReport } from './schema/take-in';
import { whatIfListReport, whatIfReport } from './schema/whatif';
import { windowsReport } from './schema/windows';

/**
 * The shapes of every JSON report the command line prints. The JSON Schemas in `schemas/` are made from these; the
 * rest of the program takes only their types, so that the library is not loaded at run time.
 *
 * A key is absent where the plan lacks what its value needs. Days are ISO 8601 calendar dates, weeks ISO 8601 weeks.
 */

export type CheckReport = z.output<typeof checkReport>;
export type CompareReport = z.output<typeof compareReport>;
export type RoomsReport = z.output<typeof roomsReport>;
export type GasReport = z.output<typeof gasReport>;
export type CourseReport = z.output<typeof courseReport>;
export type PlantReport = z.output<typeof plantReport>;
export type PapersReport = z.output<typeof papersReport>;
export type WindowsReport = z.output<typeof windowsReport>;
export type FillReport = z.output<typeof fillReport>;
export type ReleaseReport = z.output<typeof releaseReport>;
export type OutlineReport = z.output<typeof outlineReport>;
export type ReadingsReport = z.output<typeof readingsReport>;
export type CaRecordReport = z.output<typeof caRecordReport>;
export type SamplingReport = z.output<typeof samplingReport>;
export type LearnReport = z.output<typeof learnReport>;
export type StatusReport = z.output<typeof statusReport>;
export type TakeInReport = z.output<typeof takeInReport>;
export type WhatIfReport = z.output<typeof whatIfReport>;
export type WhatIfListReport = z.output<typeof whatIfListReport>;
export type ExpectReport = z.output<typeof expectReport>;
export type ExplainReport = z.output<typeof explainReport>;
export type SchemaListReport = z.output<typeof schemaListReport>;
export type FindingJson = CheckReport['findings'][number];
export type FindingCounts = CheckReport['counts'];

/** By the name of the file in `schemas/`, without `.schema.json`. */
export const reportSchemas: Readonly<Record<string, z.ZodType>> = {
  'check-report': checkReport,
  'compare-report': compareReport,
  'rooms-report': roomsReport,
  'gas-report': gasReport,
  'course-report': courseReport,
  'plant-report': plantReport,
  'windows-report': windowsReport,
  'fill-report': fillReport,
  'release-report': releaseReport,
  'papers-report': papersReport,
  'status-report': statusReport,
  'take-in-report': takeInReport,
  'readings-report': readingsReport,
  'ca-record-report': caRecordReport,
  'sampling-report': samplingReport,
  'learn-report': learnReport,
  'outline-report': outlineReport,
  'expect-report': expectReport,
  'whatif-report': whatIfReport,
  'whatif-list-report': whatIfListReport,
  'explain-report': explainReport,
  'schema-list-report': schemaListReport,
};
