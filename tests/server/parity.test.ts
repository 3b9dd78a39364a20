import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import type { CheckReport } from '../../src/report/schemas';
import { lotwright, root } from '../cli/in-process';
import { ROOT, TestClient } from './client';
import { computed, samplePlan } from './plans';

/** All of a folder, files of readings too. */
function filesOf(folder: string): { path: string; text: string }[] {
  const full = path.join(root, folder);
  return readdirSync(full)
    .filter((file) => /\.(yaml|csv)$/.test(file))
    .map((file) => ({ path: file, text: readFileSync(path.join(full, file), 'utf8') }));
}

let client: TestClient | undefined;

afterEach(async () => {
  await client?.stop();
  client = undefined;
}, 30_000);

/** The plans' own files of readings are not there in the first of the tests. */
const READINGS = /^readings:\n(?: .*\n)*/m;

const SEVERITY = { error: 1, warning: 2, notice: 3 } as const;

describe('editor and command line say the same', () => {
  it.each(['first-season', 'us-units', 'with-mistakes'])('about %s', async (name) => {
    const files = samplePlan(name).map((file) => ({ ...file, text: file.text.replace(READINGS, '') }));
    const { season, findings } = computed(files);
    client = new TestClient(new Map(files.map(({ path, text }) => [`${ROOT}/${path}`, text])));
    await client.start();
    await client.settled();
    const inEditor = files.flatMap(({ path }) =>
      (client?.diagnostics(`${ROOT}/${path}`) ?? []).map(({ code, message, severity, range }) =>
        [path, range.start.line + 1, severity, String(code), message].join(' '),
      ),
    );
    const onCommandLine = findings.map(({ at, severity, code, message }) => {
      const before = season.plan.files.get(at.file)?.text.slice(0, at.start) ?? '';
      return [at.file, before.split('\n').length, SEVERITY[severity], code, message].join(' ');
    });
    expect(findings.length).toBeGreaterThan(0);
    expect(inEditor.sort()).toEqual(onCommandLine.sort());
  });

  it.each(['first-season', 'in-march'])('about what is read in the rooms of %s', async (name) => {
    const folder = `sample-plans/${name}`;
    const { out } = await lotwright(['check', folder, '--format', 'json', '--fail-on', 'error']);
    const report: CheckReport = JSON.parse(out);
    const below = (file: string) => file.slice(folder.length + 1);
    const files = filesOf(folder);
    client = new TestClient(new Map(files.map(({ path, text }) => [`${ROOT}/${path}`, text])));
    await client.start();
    const shown = () =>
      files.flatMap(({ path }) =>
        (client?.diagnostics(`${ROOT}/${path}`) ?? []).map(
          ({ code, message, severity, range, relatedInformation = [] }) =>
            [
              `${path}:${range.start.line + 1} ${severity} ${code} ${message}`,
              ...relatedInformation.map(
                ({ location, message: why }) =>
                  `${location.uri.slice(ROOT.length + 1)}:${location.range.start.line + 1} ${why}`,
              ),
            ].join('\n'),
        ),
      );
    const onCommandLine = report.findings.map(({ place, severity, code, message, related }) =>
      [
        `${below(place.file)}:${place.line} ${SEVERITY[severity]} ${code} ${message}`,
        ...related.map((one) => `${below(one.place.file)}:${one.place.line} ${one.message}`),
      ].join('\n'),
    );
    const wanted = onCommandLine.sort().join('\n');
    expect(wanted.includes('readings.csv')).toBe(name === 'first-season');
    // The readings come when they have been read: it is waited until all is there, and then shown where it is not.
    await client.until('all that is found', () => shown().sort().join('\n') === wanted).catch(() => {});
    await client.settled();
    expect(shown().sort().join('\n')).toBe(wanted);
  });
});
