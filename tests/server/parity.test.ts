import { afterEach, describe, expect, it } from 'vitest';
import { ROOT, TestClient } from './client';
import { computed, samplePlan } from './plans';

let client: TestClient | undefined;

afterEach(async () => {
  await client?.stop();
  client = undefined;
}, 30_000);

const SEVERITY = { error: 1, warning: 2, notice: 3 } as const;

describe('editor and command line say the same', () => {
  it.each(['first-season', 'us-units', 'with-mistakes'])('about %s', async (name) => {
    const files = samplePlan(name);
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
});
