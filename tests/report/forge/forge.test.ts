import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { Ajv } from 'ajv';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../../src/findings/compute';
import { findingsOf } from '../../../src/findings/find';
import { rules } from '../../../src/findings/rules';
import type { Finding } from '../../../src/findings/types';
import { readPlan } from '../../../src/plan/read';
import { annotations } from '../../../src/report/forge/annotations';
import { codeQuality } from '../../../src/report/forge/code-quality';
import { forgeFindings } from '../../../src/report/forge/forge-finding';
import { sarif } from '../../../src/report/forge/sarif';
import { lotwright } from '../../cli/in-process';

const folder = path.resolve(__dirname, '../../../sample-plans/with-mistakes');
const files = readdirSync(folder)
  .sort()
  .map((name) => ({ path: name, text: readFileSync(path.join(folder, name), 'utf8') }));

/**
 * The schema the standard publishes: OASIS, "Static Analysis Results Interchange Format (SARIF) Version 2.1.0",
 * Schemata/sarif-schema-2.1.0.json of oasis-tcs/sarif-spec. A copy, since nothing here reaches the network.
 */
const schema: object = JSON.parse(readFileSync(path.join(__dirname, 'sarif-schema-2.1.0.json'), 'utf8'));
// One pattern of the schema is no Unicode expression. Formats are not checked here; addresses have tests of their own.
const validate = new Ajv({ strict: false, validateFormats: false, unicodeRegExp: false }).compile(schema);

function read(files: readonly { readonly path: string; readonly text: string }[]) {
  const plan = readPlan(files);
  return { plan, findings: findingsOf(computeSeason(plan, { courses: true })) };
}

function report(planFiles: readonly { readonly path: string; readonly text: string }[]) {
  const { plan, findings } = read(planFiles);
  const repositoryPath = (name: string) => `plans/${name}`;
  const placed = forgeFindings(plan, findings, repositoryPath);
  const made = sarif(placed, {
    plan,
    version: '1.2.3',
    repositoryPath,
    rules,
    page: (code) => `# ${code}\n`,
    pagesAt: 'https://example.org/pages',
  });
  return { plan, findings, placed, made };
}

const { findings, placed, made } = report(files);

describe('findings as SARIF 2.1.0', () => {
  it('are valid by the schema that OASIS publishes', () => {
    validate(made);
    expect(validate.errors).toBeNull();
    expect(made.runs[0].results.length).toBe(findings.length);
    expect(findings.length).toBeGreaterThan(40);
  });

  it('the schema is not so wide that anything passes', () => {
    expect(validate({ ...made, version: '2.0.0' })).toBe(false);
    expect(validate({ ...made, runs: [{ ...made.runs[0], columnKind: 'bytes' }] })).toBe(false);
  });

  it('name each rule once, with its page and the address where it is published', () => {
    const { rules: named } = made.runs[0].tool.driver;
    expect(new Set(named.map(({ id }) => id)).size).toBe(named.length);
    expect(new Set(named.map(({ id }) => id))).toEqual(new Set(findings.map(({ code }) => code)));
    for (const { id, helpUri, help } of named) {
      expect(helpUri).toBe(`https://example.org/pages/${id}.md`);
      expect(help?.markdown).toBe(`# ${id}\n`);
    }
    for (const { ruleId, ruleIndex } of made.runs[0].results) expect(named[ruleIndex]?.id).toBe(ruleId);
  });

  it('have regions that count from one and cut out the words they are about', () => {
    const unknown = placed.find(({ finding }) => finding.code === 'unknown-reference');
    const result = made.runs[0].results.find(({ ruleId }) => ruleId === 'unknown-reference');
    const region = result?.locations[0]?.physicalLocation.region;
    expect(region).toBeDefined();
    const { file, start, end } = unknown?.finding.at ?? { file: '', start: 0, end: 0 };
    const text = files.find(({ path: name }) => name === file)?.text ?? '';
    const line = text.split('\n')[(region?.startLine ?? 0) - 1] ?? '';
    const cut = line.slice((region?.startColumn ?? 0) - 1, (region?.endColumn ?? 0) - 1);
    expect(text.slice(start, end)).toBe(cut);
    for (const { locations } of made.runs[0].results)
      for (const { physicalLocation } of locations) {
        expect(physicalLocation.region.startLine).toBeGreaterThanOrEqual(1);
        expect(physicalLocation.region.startColumn).toBeGreaterThanOrEqual(1);
      }
  });

  it('keep the fingerprints of all findings when lines move, and never give one twice', () => {
    const prints = (result: typeof made) =>
      result.runs[0].results.map(({ partialFingerprints }) => partialFingerprints['lotwright/v1']);
    expect(new Set(prints(made)).size).toBe(findings.length);
    const moved = report(
      files.map(({ path: name, text }) => ({ path: name, text: `# a remark\n\n${text}` })),
    ).made;
    expect([...prints(moved)].sort()).toEqual([...prints(made)].sort());
    expect(moved.runs[0].results[0]?.locations).not.toEqual(made.runs[0].results[0]?.locations);
  });

  it('write paths from the root, with spaces and letters of any script encoded as RFC 3986 has it', () => {
    const uri = report([{ path: 'Ernte 2026/äpfel #1.lotplan.yaml', text: 'lotwright: 9\n' }]).made.runs[0]
      .results[0]?.locations[0]?.physicalLocation.artifactLocation;
    expect(uri).toEqual({
      uri: 'plans/Ernte%202026/%C3%A4pfel%20%231.lotplan.yaml',
      uriBaseId: '%SRCROOT%',
    });
    expect(new URL(uri?.uri ?? '', 'file:///').pathname).toBe(`/${uri?.uri}`);
  });

  it('give fixes that a reader of the report can apply', () => {
    const fixed = made.runs[0].results.find(({ fixes }) => fixes);
    const replacement = fixed?.fixes?.[0]?.artifactChanges[0]?.replacements[0];
    expect(replacement?.deletedRegion.startLine).toBeGreaterThan(0);
    const finding = findings.find(({ fixes }) => fixes.length > 0 && fixes[0]?.edits.length);
    expect(made.runs[0].results.flatMap(({ fixes }) => fixes ?? []).length).toBe(
      findings.reduce((sum, { fixes }) => sum + fixes.length, 0),
    );
    expect(finding).toBeDefined();
  });
});

/** How GitHub reads a workflow command: the inverse of the escaping that its documentation gives. */
function readCommand(line: string) {
  const match = /^::(error|warning|notice) ([^:]*)::(.*)$/.exec(line);
  if (!match) return undefined;
  const plain = (value: string) =>
    value
      .replaceAll('%2C', ',')
      .replaceAll('%3A', ':')
      .replaceAll('%0A', '\n')
      .replaceAll('%0D', '\r')
      .replaceAll('%25', '%');
  const properties = Object.fromEntries(
    (match[2] ?? '').split(',').map((one) => {
      const [name, value] = one.split('=');
      return [name, plain(value ?? '')];
    }),
  );
  return { severity: match[1], properties, message: plain(match[3] ?? '') };
}

describe('findings as annotations', () => {
  it('are one command a line, worst first, and a line that sums up', () => {
    const lines = annotations(placed).split('\n');
    expect(lines).toHaveLength(findings.length + 1);
    const severities = lines.slice(0, -1).map((line) => readCommand(line)?.severity);
    expect(severities).toEqual([
      ...severities.filter((one) => one === 'error'),
      ...severities.filter((one) => one === 'warning'),
      ...severities.filter((one) => one === 'notice'),
    ]);
    expect(lines.at(-1)).toMatch(/^\d+ errors, \d+ warnings, \d+ notices\.$/);
  });

  it('carry any file name and any message through the escaping', () => {
    const name = fc.string({ unit: 'grapheme', minLength: 1 }).filter((file) => !file.includes('='));
    fc.assert(
      fc.property(name, fc.string({ unit: 'grapheme' }), (file, message) => {
        const finding: Finding = {
          code: 'room-overfilled',
          family: 'room',
          severity: 'warning',
          message,
          at: { file, start: 0, end: 0 },
          related: [],
          fixes: [],
          fingerprint: 'room-overfilled:R1',
        };
        const place = { file, line: 3, column: 5, endLine: 3, endColumn: 9 };
        const [line] = annotations([{ finding, place, fingerprint: 'x' }]).split(/\n(?=1?\d* ?errors?|0)/);
        const read = readCommand(line ?? '');
        expect(read?.properties).toEqual({
          file,
          line: '3',
          endLine: '3',
          col: '5',
          endColumn: '9',
          title: 'room-overfilled',
        });
        expect(read?.message).toBe(message);
      }),
    );
  });
});

describe('findings as a Code Quality report', () => {
  it('have a path, a line, a severity of five and a fingerprint that is given once', () => {
    const entries = codeQuality(placed);
    expect(new Set(entries.map(({ fingerprint }) => fingerprint)).size).toBe(entries.length);
    for (const { location, severity, description } of entries) {
      expect(location.path).toMatch(/^plans\/[a-z]+\.lotplan\.yaml$/);
      expect(location.lines.begin).toBeGreaterThan(0);
      expect(['info', 'minor', 'major', 'critical', 'blocker']).toContain(severity);
      expect(description).not.toBe('');
    }
  });
});

describe('check for forges', () => {
  it('writes paths from the root of the repository, whichever folder it runs in', async () => {
    const { out, code } = await lotwright(['check', '.', '--format', 'sarif'], {
      cwd: folder,
    });
    expect(code).toBe(1);
    const written: typeof made = JSON.parse(out);
    validate(written);
    expect(validate.errors).toBeNull();
    const uris = written.runs[0].results.map(
      ({ locations }) => locations[0]?.physicalLocation.artifactLocation.uri,
    );
    expect(new Set(uris).has('sample-plans/with-mistakes/harvest.lotplan.yaml')).toBe(true);
    expect(written.runs[0].tool.driver.rules.every(({ help }) => help?.markdown?.startsWith('# '))).toBe(
      true,
    );
  });

  it('takes another folder for paths where one is named', async () => {
    const { out } = await lotwright([
      ...['check', 'sample-plans/with-mistakes', '--format', 'code-quality'],
      ...['--paths-from', 'sample-plans'],
    ]);
    const entries: { location: { path: string } }[] = JSON.parse(out);
    expect(entries.some(({ location }) => location.path === 'with-mistakes/harvest.lotplan.yaml')).toBe(true);
  });

  it('gives the same bytes each time', async () => {
    const words = ['check', 'sample-plans/with-mistakes', '--format', 'annotations'];
    expect(await lotwright(words)).toEqual(await lotwright(words));
  });
});
