import { appendFileSync } from 'node:fs';
import path from 'node:path';
import { expect } from 'vitest';
import type { HowKnown } from '../../src/plan/figure';

/** One value that a source outside this repository states, or that follows from such values by arithmetic. */
export interface PublishedCheck {
  /** Stable kebab-case name, unique among all checks. */
  readonly id: string;
  /** What is checked, in a line for the table. */
  readonly what: string;
  /** The publication: authors, title, year and, where it has one, its address. */
  readonly source: string;
  readonly known: HowKnown;
  /** The value as the source prints it. */
  readonly expected: number;
  readonly unit: string;
  /** Largest difference allowed, in the same unit: half of the last digit the source prints, unless said otherwise. */
  readonly tolerance: number;
}

/** A check as it was made: a line of the file that the table is made from. */
export interface MadeCheck extends PublishedCheck {
  /** Name of the test file, without its endings. */
  readonly subject: string;
  /** The value the tool gave. */
  readonly actual: number;
}

/** Every check made so far in this test file. */
export const checks: MadeCheck[] = [];

// Set to a file's path to collect all checks as JSON lines, from which the table of checks is made.
const TABLE_FILE = process.env.PUBLISHED_CHECKS_FILE;

/** Holds the tool's value against the published one, and records the check for the table. */
export function check(published: PublishedCheck, actual: number): void {
  if (checks.some(({ id }) => id === published.id)) throw new Error(`two checks are named ${published.id}`);
  const made = { ...published, subject: path.basename(expect.getState().testPath ?? '', '.test.ts'), actual };
  checks.push(made);
  if (TABLE_FILE) appendFileSync(TABLE_FILE, `${JSON.stringify(made)}\n`);
  // A rounding guard keeps a value that lies exactly half a printed digit away from failing by float noise.
  const allowed = published.tolerance + 1e-9 * Math.abs(published.expected);
  expect(
    Math.abs(actual - published.expected),
    `${published.what}: ${actual} ${published.unit}, the source has ${published.expected} (${published.source})`,
  ).toBeLessThanOrEqual(allowed);
}
