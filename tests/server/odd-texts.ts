/** A text that is read by people who never read the plan language's rules: what it is, and a code it must be told with. */
export interface OddText {
  readonly what: string;
  readonly text: string;
  /** Undefined where nothing is wrong with it. */
  readonly told?: string;
}

const VERSION = 'lotwright: 1\n';
const SIZE = 'inside: { length: 9 m, width: 8 m, height: 7 m }';
const ROOM = `{ ${SIZE}, bin-type: b }`;
const LOT = 'variety: Gala, picked: 2026-09-03, bins: 240';
const odd = (what: string, body: string, told?: string): OddText => ({
  what,
  text: VERSION + body,
  ...(told === undefined ? {} : { told }),
});
const lot = (what: string, keys: string, told?: string) =>
  odd(what, `lots:\n  L1: { ${LOT}, ${keys} }\n`, told);

export const ODD_TEXTS: readonly OddText[] = [
  odd('an anchor', `rooms:\n  R1: &small ${ROOM}\n`, 'yaml-feature-not-allowed'),
  odd('an alias', `rooms:\n  R1: &small ${ROOM}\n  R2: *small\n`, 'yaml-feature-not-allowed'),
  odd('an alias of nothing', 'rooms:\n  R1: *small\n', 'yaml-feature-not-allowed'),
  odd(
    'a merge key',
    `rooms:\n  R1: &a ${ROOM}\n  R2:\n    <<: *a\n    places: 3\n`,
    'yaml-feature-not-allowed',
  ),
  odd('an anchor on a key', `rooms:\n  &k R1: ${ROOM}\n`, 'yaml-feature-not-allowed'),
  odd('a tag', `rooms: !!map\n  R1: ${ROOM}\n`, 'yaml-feature-not-allowed'),
  odd('a tag of its own', `rooms:\n  R1: !room ${ROOM}\n`, 'yaml-feature-not-allowed'),
  odd('two documents', `rooms:\n  R1: ${ROOM}\n---\nlots:\n  L1: { ${LOT} }\n`, 'yaml-feature-not-allowed'),
  {
    what: 'a directive',
    text: `%YAML 1.2\n---\n${VERSION}rooms:\n  R1: ${ROOM}\n`,
    told: 'yaml-feature-not-allowed',
  },
  odd('an end of document', `rooms:\n  R1: ${ROOM}\n...\n`, 'yaml-feature-not-allowed'),
  odd('tabs that indent', `rooms:\n\tR1: ${ROOM}\n`, 'tab-indent'),
  odd('tabs between', `rooms:\n  R1:\t${ROOM}\t# small\n`),
  odd('a tab in a text', 'lots:\n  L1: { variety: Gala, picked: 2026-09-03, bins: 2, block: "a\tb" }\n'),
  odd('a key twice', `rooms:\n  R1: { ${SIZE}, bin-type: b, bin-type: c }\n`, 'duplicate-key'),
  odd('an entry twice', `rooms:\n  R1: ${ROOM}\n  R1: ${ROOM}\n`, 'duplicate-identifier'),
  odd('a section twice', `rooms:\n  R1: ${ROOM}\nrooms:\n  R2: ${ROOM}\n`, 'duplicate-key'),
  odd('the version twice', `lotwright: 1\nrooms:\n  R1: ${ROOM}\n`, 'duplicate-key'),
  lot('a huge number', 'received: 99999999999999999999', 'out-of-range'),
  lot('a number without end', 'received: .inf', 'wrong-type'),
  lot('no number at all', 'received: .nan', 'wrong-type'),
  lot('a negative number', 'received: -5', 'out-of-range'),
  lot('an exponent', 'received: 1e400', 'wrong-type'),
  lot('a number with underscores', 'received: 1_000', 'wrong-type'),
  lot('an octal number', 'received: 0o17'),
  lot('a number in quotes', 'received: "120"', 'wrong-type'),
  lot('many digits', `field-temperature: 1${'0'.repeat(400)} °C`, 'out-of-range'),
  lot('a quantity with a non-breaking space', 'field-temperature: 18\u00a0°C'),
  odd(
    'the thirtieth of February',
    'lots:\n  L1: { variety: Gala, picked: 2026-02-30, bins: 2 }\n',
    'not-a-date',
  ),
  odd('a date with slashes', 'lots:\n  L1: { variety: Gala, picked: 09/03/2026, bins: 2 }\n', 'not-a-date'),
  odd('a date in words', 'lots:\n  L1: { variety: Gala, picked: 3 September 2026, bins: 2 }\n', 'not-a-date'),
  odd(
    'a date with a time',
    'lots:\n  L1: { variety: Gala, picked: 2026-09-03T10:00:00Z, bins: 2 }\n',
    'not-a-date',
  ),
  odd('the year nought', 'lots:\n  L1: { variety: Gala, picked: 0000-01-01, bins: 2 }\n', 'not-a-date'),
  odd(
    'a week fifty-four',
    'fills:\n  F1: { room: R1, regime: gala-standard, first-bin: 2026-09-03, last-bin: 2026-09-04, lots: {}, open: 2027-W54 }\n',
    'not-a-week',
  ),
  odd(
    'a span that runs backwards',
    'lots:\n  L1: { variety: Gala, picked: 2026-09-09..2026-09-03, bins: 2 }\n',
    'span-reversed',
  ),
  lot('text from right to left', 'block: "\u05DB\u05E8\u05DD \u05E6\u05E4\u05D5\u05DF"'),
  odd('a name from right to left', `rooms:\n  \u05D7\u05D3\u05E8: ${ROOM}\n`, 'bad-identifier'),
  lot('marks that turn the direction', 'block: "a\u202Eb\u202C"'),
  lot('a letter of two halves', 'block: "\u{1F34E}"'),
  lot('half a letter', 'block: "\uD83C"'),
  odd('a control character', `rooms:\n  R1: ${ROOM}\u0001\n`, 'yaml-syntax'),
  odd('a line separator', `rooms:\u2028  R1: ${ROOM}\n`, 'unknown-key'),
  odd('a section without anything', 'rooms:\nlots:\n  # none yet\nfills: {}\ndemand: ~\n', 'missing-value'),
  odd('an entry without anything', 'rooms:\n  R1:\n', 'missing-value'),
  odd('a key without a value', `rooms:\n  R1: { ${SIZE}, bin-type: }\n`, 'missing-value'),
  odd('a section that is a list', `rooms:\n  - R1: ${ROOM}\n`, 'wrong-type'),
  odd('a section that is a word', 'rooms: none\n', 'wrong-type'),
  odd('deep brackets', `rooms: ${'{ a: '.repeat(300)}1${' }'.repeat(300)}\n`, 'yaml-syntax'),
  odd('deep lists', `rooms:\n  R1: ${'['.repeat(300)}${']'.repeat(300)}\n`, 'yaml-syntax'),
  odd(
    'deep levels',
    `rooms:\n${Array.from({ length: 60 }, (_, level) => `${'  '.repeat(level + 1)}a${level}:\n`).join('')}`,
    'yaml-syntax',
  ),
  odd(
    'comments everywhere',
    `# a\nrooms: # b\n  # c\n  R1: # d\n    # e\n    inside: # f\n      { length: 9 m, # g\n        width: 8 m, height: 7 m } # h\n    # i\n    bin-type: b # j\n# k\n`,
  ),
  odd('a comment after the last brace', `rooms:\n  R1: ${ROOM}# small\n`, 'yaml-syntax'),
  odd(
    'a comment between key and value',
    `rooms:\n  R1:\n    bin-type:\n      # which one\n      b\n    ${SIZE}\n`,
  ),
  {
    what: 'line ends of both kinds',
    text: `lotwright: 1\r\nrooms:\n  R1:\r\n    ${SIZE}\n    bin-type: b\r\n`,
  },
  { what: 'carriage returns alone', text: `lotwright: 1\rrooms:\r  R1: ${ROOM}\r`, told: 'line-ending' },
  { what: 'flow style throughout', text: `{ lotwright: 1, rooms: { R1: ${ROOM} } }\n` },
  {
    what: 'JSON',
    text: `{"lotwright": 1, "rooms": {"R1": {"inside": {"length": "9 m", "width": "8 m", "height": "7 m"}, "bin-type": "b"}}}`,
  },
  odd('a brace that is never closed', `rooms:\n  R1: { ${SIZE}\nlots:\n  L1: { ${LOT} }\n`, 'yaml-syntax'),
  odd(
    'a quote that is never closed',
    `rooms:\n  R1: { ${SIZE}, bin-type: "b }\nlots:\n  L1: { ${LOT} }\n`,
    'yaml-syntax',
  ),
  odd(
    'a block text',
    'lots:\n  L1:\n    variety: Gala\n    picked: 2026-09-03\n    bins: 2\n    block: |\n      Long\n      Meadow\n',
  ),
  odd('a folded text', 'lots:\n  L1:\n    variety: >-\n      Gala\n    picked: 2026-09-03\n    bins: 2\n'),
  odd('a key as a question', `rooms:\n  ? R1\n  : ${ROOM}\n`),
  odd('a list as a key', `rooms:\n  ? [R1, R2]\n  : ${ROOM}\n`, 'yaml-feature-not-allowed'),
  odd('a key in quotes', `'rooms':\n  "R1": ${ROOM}\n`),
  odd('a number as a key', `rooms:\n  1: ${ROOM}\n`, 'bad-identifier'),
  odd('yes as a value', 'lots:\n  L1: { variety: yes, picked: 2026-09-03, bins: on }\n', 'wrong-type'),
  odd(
    'a key of the object prototype',
    `rooms:\n  __proto__: ${ROOM}\n  constructor: ${ROOM}\n`,
    'bad-identifier',
  ),
  odd('one space for a level', `rooms:\n R1:\n  ${SIZE}\n  bin-type: b\n`),
  odd(
    'levels that do not meet',
    `rooms:\n    R1:\n      bin-type: b\n   R2:\n      bin-type: b\n`,
    'yaml-syntax',
  ),
  {
    what: 'a byte order mark in the middle',
    text: `${VERSION}\uFEFFrooms:\n  R1: ${ROOM}\n`,
  },
];
