import fs from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { inMemory, lotwright, root } from './in-process';
import { errorsAgainst } from './schemas';

// Half-typed plans are the normal state of an editor: whatever is missing, every command answers.
const folder = path.join(root, 'sample-plans/first-season');
const texts = fs.readdirSync(folder).map((name) => fs.readFileSync(path.join(folder, name), 'utf8'));

const COMMANDS: readonly (readonly [words: readonly string[], report: string])[] = [
  [['check'], 'check-report'],
  [['rooms'], 'rooms-report'],
  [['gas'], 'gas-report'],
  [['windows'], 'windows-report'],
  [['explain', 'Gala'], 'explain-report'],
];

async function everyCommandAnswers(plan: readonly string[]) {
  const files = inMemory(Object.fromEntries(plan.map((text, at) => [`/plan/${at}.lotplan.yaml`, text])));
  for (const [words, schema] of COMMANDS) {
    const { code, out } = await lotwright([...words, 'plan', '--format', 'json'], { files, cwd: '/' });
    expect([0, 1]).toContain(code);
    expect(errorsAgainst(schema, JSON.parse(out))).toEqual([]);
    await lotwright([...words, 'plan'], { files, cwd: '/' });
  }
  const release = await lotwright(['release', 'plan'], { files, cwd: '/' });
  expect([0, 1, 2]).toContain(release.code);
  expect(release.out).not.toContain('found the schedule wrong');
}

test('with lines missing', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(fc.nat(), { minLength: 1, maxLength: 12 }), async (gone) => {
      const lines = texts.map((text) => text.split('\n'));
      const count = lines.flat().length;
      const missing = new Set(gone.map((at) => at % count));
      let at = 0;
      await everyCommandAnswers(lines.map((file) => file.filter(() => !missing.has(at++)).join('\n')));
    }),
    { numRuns: 8 },
  );
});

test('cut off anywhere', async () => {
  await fc.assert(
    fc.asyncProperty(fc.double({ min: 0, max: 1, noNaN: true }), async (share) => {
      await everyCommandAnswers(texts.map((text) => text.slice(0, Math.floor(text.length * share))));
    }),
    { numRuns: 8 },
  );
});

test('with numbers that make no sense', async () => {
  const numbers = /(?<=[ :])\d+(?:\.\d+)?(?= (?:m|kg|kW|°C|%|Pa|min|N|days|months|m3\/h)\b)/g;
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom('0', '-5', '1000000000', '0.0000001'),
      fc.nat({ max: 60 }),
      async (number, which) => {
        let at = 0;
        await everyCommandAnswers(
          texts.map((text) => text.replace(numbers, (old) => (at++ === which ? number : old))),
        );
      },
    ),
    { numRuns: 12 },
  );
});
