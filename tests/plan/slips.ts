/** Slips within a line, as planners make them, in small plans. */

export const ROOM = `rooms:
  R1:
    inside: { length: 13.1 m, width: 4.8 m, height: 5.8 m } # as measured
    bin-type: plastic-1200
    lost-places: 4 # under the cooler
    ready: 2026-08-31
  R2: { inside: { length: 13.1 m, width: 4.8 m, height: 5.8 m }, bin-type: plastic-1200 }
`;
export const LOTS = `lots:
  G1: { variety: Gala, block: Long Meadow 2, picked: 2026-09-04..2026-09-07, bins: 50,
        field-temperature: 19 °C, maturity: { tested: 2026-09-03, starch: 5.1, firmness: 74 N } }
  G2: { variety: Gala, picked: 2026-09-08..2026-09-10, bins: 300 }
`;
export const PLANT = `plant:
  nitrogen:
    N1:
      kind: membrane
      flows:
        - { purity: 97 %, flow: 60 m3/h }
        - { purity: 99.2 %, flow: 28 m3/h }
`;

/** A slip as it is made in a plan, and what is told of it. */
export interface SlipOf {
  readonly what: string;
  readonly plan: string;
  /** What is written in the plan, and what was typed in its place. */
  readonly written: string;
  readonly typed: string;
  /** The text that is marked, and what is said of it. */
  readonly at: string;
  readonly says: RegExp;
  /** How the fix writes it where that differs from what was written; none where there is no fix. */
  readonly fixed?: string | 'none';
}

export const SLIPS: readonly SlipOf[] = [
  // Blanks that are none.
  slip(
    'a non-breaking space before a key',
    ROOM,
    '    bin-type',
    '   \u00a0bin-type',
    '\u00a0',
    /looks like a space.*non-breaking space \(U\+00A0\)/,
  ),
  slip(
    'non-breaking spaces for a whole indent',
    ROOM,
    '    bin-type',
    '\u00a0\u00a0\u00a0\u00a0bin-type',
    '\u00a0',
    /4 such places/,
  ),
  slip('a non-breaking space behind a colon', ROOM, 'bin-type: ', 'bin-type:\u00a0', '\u00a0', /U\+00A0/),
  slip(
    'a wide space behind a colon',
    ROOM,
    'bin-type: ',
    'bin-type:\u3000',
    '\u3000',
    /wide space \(U\+3000\)/,
  ),
  slip('a non-breaking space in braces', LOTS, 'bins: 50', 'bins:\u00a050', '\u00a0', /U\+00A0/),
  slip('a non-breaking space behind a comma', LOTS, ', bins: 50', ',\u00a0bins: 50', '\u00a0', /U\+00A0/),
  slip(
    "a non-breaking space at a line's end",
    ROOM,
    'plastic-1200\n',
    'plastic-1200\u00a0\n',
    '\u00a0',
    /Delete it/,
  ),
  slip(
    'a zero-width space before a key',
    ROOM,
    '    bin-type',
    '    \u200bbin-type',
    '\u200b',
    /zero-width space \(U\+200B\).*Delete it/,
  ),
  slip(
    'a byte order mark before a value',
    ROOM,
    'bin-type: ',
    'bin-type: \ufeff',
    '\ufeff',
    /byte order mark \(U\+FEFF\)/,
  ),
  // Dashes.
  slip('a dash before a key', ROOM, '    bin-type', '    - bin-type', '-', /`bin-type` stands in none/),
  slip('a dash before the first key', ROOM, '    inside', '    - inside', '-', /`inside` stands in none/),
  slip('a dash before a room', ROOM, '  R2:', '- R2:', '-', /`R2` stands in none/),
  slip('a dash alone', ROOM, '    bin-type', '    -\n    bin-type', '-', /A dash stands alone/),
  slip(
    "a list's entry without its dash",
    PLANT,
    '- { purity: 99.2',
    '{ purity: 99.2',
    '{',
    /begin with a dash/,
  ),
  slip(
    'a dash without its space',
    PLANT,
    '- { purity: 99.2',
    '-{ purity: 99.2',
    '-',
    /space is missing behind the dash/,
  ),
  // Colons.
  slip(
    'no space behind a colon',
    ROOM,
    'bin-type: ',
    'bin-type:',
    'bin-type:',
    /space is missing behind the colon of `bin-type`/,
  ),
  slip('no space behind a colon before braces', ROOM, 'inside: {', 'inside:{', 'inside:', /space is missing/),
  slip(
    'no space behind a colon in braces',
    LOTS,
    'bins: 50',
    'bins:50',
    'bins:50',
    /space is missing behind the colon of `bins`/,
  ),
  slip('no colon', ROOM, 'bin-type: ', 'bin-type ', 'bin-type', /colon is missing behind `bin-type`/),
  slip('no colon before braces', ROOM, 'inside: {', 'inside {', 'inside', /colon is missing behind `inside`/),
  slip('no colon in braces', LOTS, 'bins: 50', 'bins 50', 'bins 50', /colon is missing behind `bins`/),
  slip("no colon behind a room's name", ROOM, '  R1:', '  R1', 'R1', /no colon behind it/),
  slip('an equals sign', ROOM, 'bin-type: ', 'bin-type = ', ' = ', /`=`, which is no colon/),
  slip('a wide colon', ROOM, 'bin-type: ', 'bin-type\uff1a ', '\uff1a ', /which is no colon/),
  // Braces, brackets and commas.
  slip(
    'no opening brace',
    LOTS,
    'G2: { variety',
    'G2: variety',
    'variety',
    /A `\{` is missing before `variety`/,
  ),
  slip(
    'no opening brace of a lot in two lines',
    LOTS,
    'G1: { variety',
    'G1: variety',
    'variety',
    /A `\{` is missing/,
  ),
  slip('no closing brace', ROOM, ' } # as', ' # as', '{', /not closed.*`}`/),
  slip('no closing brace of a lot in two lines', LOTS, ' N } }', ' N }', '{', /not closed.*`}`/),
  slip('a comma behind a closing brace', ROOM, ' } # as', ' }, # as', ',', /stands behind the closing `}`/),
  slip('a brace too many', LOTS, ' N } }', ' N } } }', '}', /stands behind the closing `}`/),
  slip(
    'a word behind a closing brace',
    ROOM,
    ' } # as',
    ' } x # as',
    'x',
    /`x` stands behind the closing/,
    'none',
  ),
  slip('a brace closed by a bracket', ROOM, ' } # as', ' ] # as', ']', /A `\{` is closed by `}`, not by `]`/),
  slip(
    'no comma between fields',
    LOTS,
    'Long Meadow 2, picked',
    'Long Meadow 2 picked',
    'picked',
    /comma is missing before `picked`/,
  ),
  slip('two commas', LOTS, 'Long Meadow 2, picked', 'Long Meadow 2,, picked', ',,', /Two commas/),
  slip('a semicolon', LOTS, 'Long Meadow 2, picked', 'Long Meadow 2; picked', ';', /not a semicolon/),
  slip(
    "no comma at a line's end",
    LOTS,
    'bins: 50,\n',
    'bins: 50\n',
    'field-temperature',
    /comma is missing before/,
  ),
  // Quotes and text.
  slip(
    'an open quote in braces',
    LOTS,
    'Long Meadow 2',
    "'Long Meadow 2",
    "'",
    /quote is not closed/,
    "'Long Meadow 2'",
  ),
  slip(
    'an open quote',
    ROOM,
    'plastic-1200\n    lost',
    '"plastic-1200\n    lost',
    '"',
    /quote is not closed/,
    '"plastic-1200"\n    lost',
  ),
  slip(
    'a colon in text in braces',
    LOTS,
    'Long Meadow 2',
    'Long: Meadow 2',
    'Long: Meadow 2',
    /two.*quotes/,
    "'Long: Meadow 2'",
  ),
  slip(
    'a colon behind an unknown key',
    ROOM,
    '    ready:',
    '    note: a: b\n    ready:',
    'a: b',
    /two.*quotes.*no key `note`/s,
    'none',
  ),
  slip(
    'a comment without its sign',
    ROOM,
    '    ready:',
    '    // cooler checked\n    ready:',
    '// cooler checked',
    /begins with `#`/,
    '    # cooler checked\n    ready:',
  ),
  // Twice.
  slip(
    'a key twice with the same value',
    ROOM,
    '    ready:',
    '    bin-type: plastic-1200\n    ready:',
    'bin-type',
    /twice/,
  ),
  slip(
    'a key twice with another',
    ROOM,
    '    ready:',
    '    bin-type: wood\n    ready:',
    'bin-type',
    /twice/,
    'none',
  ),
  slip('a field twice in braces', LOTS, 'bins: 50,', 'bins: 50, bins: 50,', 'bins', /twice/),
];

function slip(
  what: string,
  plan: string,
  written: string,
  typed: string,
  at: string,
  says: RegExp,
  fixed?: string,
): SlipOf {
  return { what, plan, written, typed, at, says, ...(fixed === undefined ? {} : { fixed }) };
}
