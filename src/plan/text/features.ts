import type { Problem } from '../problem';

type Feature = 'alias' | 'anchor' | 'tag' | 'merge' | 'key';

const MESSAGES: Readonly<Record<Feature, string>> = {
  alias: 'Aliases (`*name`) are not used in plans: write the value here again, so that a reader sees it.',
  anchor: 'Anchors (`&name`) are not used in plans. Delete it, and write the value out where it is needed.',
  tag: 'Tags (`!name`) are not used in plans. Delete it; text in quotes is always text.',
  merge: 'Merge keys (`<<`) are not used in plans: write the keys out, so that a reader sees them.',
  key: 'A key is a plain text here, such as `bins` or `R01`; a list or a map cannot be one.',
};

/** A part of YAML that the plan language leaves out. The place is relative to the chunk. */
export function featureProblem(feature: Feature, start: number, end: number): Problem {
  return {
    code: 'yaml-feature-not-allowed',
    message: MESSAGES[feature],
    at: { file: '', start, end: Math.max(end, start) },
    about: feature,
  };
}
