import type { Rule } from '../../findings/types';
import type { Plan } from '../../plan/model';
import type { Fix, RelatedPlace, Severity } from '../../plan/problem';
import { type Place, placeOfRelated } from '../place';
import { type ForgeFinding, placeInRepository, type RepositoryPath } from './forge-finding';
import type {
  Sarif,
  SarifFix,
  SarifLevel,
  SarifLocation,
  SarifRegion,
  SarifResult,
  SarifRule,
} from './sarif-types';

export interface SarifOptions {
  readonly plan: Plan;
  readonly version: string;
  readonly repositoryPath: RepositoryPath;
  /** Every rule there is. */
  readonly rules: readonly Rule[];
  /** A rule's page, as Markdown. */
  readonly page: (code: string) => string | undefined;
  /** The address below which the pages are published, where they are. */
  readonly pagesAt?: string | undefined;
}

const LEVEL: Readonly<Record<Severity, SarifLevel>> = { error: 'error', warning: 'warning', notice: 'note' };

/** What paths in the report are relative to: the root of the repository. */
const ROOT = '%SRCROOT%';

/**
 * Findings as SARIF 2.1.0 (OASIS standard, 27 March 2020, with errata 01): one run, its rules with their pages, its
 * results with one-based regions in UTF-16 code units, fixes, and fingerprints that survive moved lines.
 */
export function sarif(findings: readonly ForgeFinding[], options: SarifOptions): Sarif {
  const found = new Set(findings.map(({ finding }) => finding.code));
  const rules = options.rules.filter(({ code }) => found.has(code));
  const indexOf = new Map(rules.map(({ code }, index) => [code, index]));
  return {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'Lotwright',
            version: options.version,
            rules: rules.map((rule) => ruleOf(rule, options)),
          },
        },
        automationDetails: { id: 'lotwright/check/' },
        columnKind: 'utf16CodeUnits',
        originalUriBaseIds: { [ROOT]: { description: { text: 'The root of the repository.' } } },
        results: findings.map((finding) => resultOf(finding, indexOf, options)),
      },
    ],
  };
}

function ruleOf({ code, summary, severity, family }: Rule, { page, pagesAt }: SarifOptions): SarifRule {
  const markdown = page(code);
  const base = pagesAt?.endsWith('/') === false ? `${pagesAt}/` : pagesAt;
  return {
    id: code,
    shortDescription: { text: summary },
    ...(markdown === undefined ? {} : { help: { text: markdown, markdown } }),
    ...(base === undefined ? {} : { helpUri: `${base}${code}.md` }),
    defaultConfiguration: { level: LEVEL[severity] },
    properties: { tags: [family] },
  };
}

function resultOf(
  { finding, place, fingerprint }: ForgeFinding,
  indexOf: ReadonlyMap<string, number>,
  { plan, repositoryPath }: SarifOptions,
): SarifResult {
  return {
    ruleId: finding.code,
    ruleIndex: indexOf.get(finding.code) ?? -1,
    level: LEVEL[finding.severity],
    message: { text: finding.message },
    locations: [locationOf(place)],
    ...(finding.related.length === 0
      ? {}
      : {
          relatedLocations: finding.related.map((related, index) =>
            relatedLocation(related, index, plan, repositoryPath),
          ),
        }),
    partialFingerprints: { 'lotwright/v1': fingerprint },
    ...(finding.fixes.length === 0
      ? {}
      : { fixes: finding.fixes.map((fix) => fixOf(fix, plan, repositoryPath)) }),
  };
}

function relatedLocation(
  related: RelatedPlace,
  index: number,
  plan: Plan,
  repositoryPath: RepositoryPath,
): SarifLocation {
  const place = placeOfRelated(plan, related);
  return {
    id: index + 1,
    ...locationOf({ ...place, file: repositoryPath(place.file) }),
    message: { text: related.message },
  };
}

function locationOf(place: Place): SarifLocation {
  return {
    physicalLocation: {
      artifactLocation: { uri: uriOf(place.file), uriBaseId: ROOT },
      region: regionOf(place),
    },
  };
}

/** Edits of a fix by file, in the order of the fix. */
function fixOf({ title, edits }: Fix, plan: Plan, repositoryPath: RepositoryPath): SarifFix {
  const files = [...new Set(edits.map(({ at }) => at.file))];
  return {
    description: { text: title },
    artifactChanges: files.map((file) => ({
      artifactLocation: { uri: uriOf(repositoryPath(file)), uriBaseId: ROOT },
      replacements: edits
        .filter(({ at }) => at.file === file)
        .map(({ at, newText }) => ({
          deletedRegion: regionOf(placeInRepository(plan, at, repositoryPath)),
          insertedContent: { text: newText },
        })),
    })),
  };
}

function regionOf({ line, column, endLine, endColumn }: Place): SarifRegion {
  return { startLine: line, startColumn: column, endLine, endColumn };
}

/** A path as the reference of RFC 3986: each part percent-encoded, so that spaces and letters of any script are kept. */
function uriOf(path: string): string {
  return path.split('/').map(encodeURIComponent).join('/');
}
