/** The parts of SARIF 2.1.0 that this program writes. Names are the standard's. */

export type SarifLevel = 'error' | 'warning' | 'note';

interface SarifText {
  readonly text: string;
  readonly markdown?: string;
}

export interface SarifRegion {
  readonly startLine: number;
  readonly startColumn: number;
  readonly endLine: number;
  readonly endColumn: number;
}

interface SarifArtifactLocation {
  readonly uri: string;
  readonly uriBaseId: string;
}

export interface SarifLocation {
  readonly id?: number;
  readonly physicalLocation: {
    readonly artifactLocation: SarifArtifactLocation;
    readonly region: SarifRegion;
  };
  readonly message?: SarifText;
}

export interface SarifFix {
  readonly description: SarifText;
  readonly artifactChanges: readonly {
    readonly artifactLocation: SarifArtifactLocation;
    readonly replacements: readonly {
      readonly deletedRegion: SarifRegion;
      readonly insertedContent: SarifText;
    }[];
  }[];
}

export interface SarifRule {
  readonly id: string;
  readonly shortDescription: SarifText;
  readonly help?: SarifText;
  readonly helpUri?: string;
  readonly defaultConfiguration: { readonly level: SarifLevel };
  readonly properties: { readonly tags: readonly string[] };
}

export interface SarifResult {
  readonly ruleId: string;
  readonly ruleIndex: number;
  readonly level: SarifLevel;
  readonly message: SarifText;
  readonly locations: readonly SarifLocation[];
  readonly relatedLocations?: readonly SarifLocation[];
  readonly partialFingerprints: Readonly<Record<string, string>>;
  readonly fixes?: readonly SarifFix[];
}

export interface Sarif {
  readonly $schema: string;
  readonly version: '2.1.0';
  readonly runs: readonly [
    {
      readonly tool: {
        readonly driver: {
          readonly name: string;
          readonly version: string;
          readonly rules: readonly SarifRule[];
        };
      };
      readonly automationDetails: { readonly id: string };
      readonly columnKind: 'utf16CodeUnits';
      readonly originalUriBaseIds: Readonly<Record<string, { readonly description: SarifText }>>;
      readonly results: readonly SarifResult[];
    },
  ];
}
