import { describe, expect, test } from 'vitest';
import { timelinePicture } from '../../extension/panel/picture';
import { sampleView } from './views';

const view = sampleView('full-season');

describe('the timeline as a picture', () => {
  const svg = timelinePicture(view);

  test('has a line for each room, and the caution', () => {
    for (const { room } of view.rows) expect(svg).toContain(`>${room}</text>`);
    expect(svg).toContain('Sealed rooms kill');
    expect(svg.match(/<path d="M0 4\.5/g)?.length).toBe(
      // One more in the key.
      view.rows.filter(({ opens }) => opens && !opens.pinned).length + 1,
    );
  });

  test('is the same each time, and follows the rooms it is given', () => {
    expect(timelinePicture(view)).toBe(svg);
    const few = timelinePicture({ ...view, rows: view.rows.slice(0, 3) });
    expect(few.length).toBeLessThan(svg.length);
    expect(few).not.toContain(`>${view.rows[4]?.room}</text>`);
  });

  test('cuts a long name, and has the varieties behind it', () => {
    const [first] = view.rows;
    if (!first) throw new Error('no room');
    const row = { ...first, room: 'R3 (R3-for-the-late-market)', varieties: 'Golden Delicious, Gala' };
    const drawn = timelinePicture({ ...view, rows: [row] });
    const [, end] = /<text x="(\d+)(?:\.\d+)?"[^>]*>Gold…<\/text>/.exec(drawn) ?? [];
    expect(drawn).toContain('>R3 (R3-for-the-la…</text>');
    expect(Number(end)).toBeGreaterThan(120);
  });

  const numberOf = (drawn: string, part: RegExp) => drawn.match(part)?.length ?? 0;
  const dashed = /stroke-dasharray="4 3"/g;

  test('has the load of all shared equipment, each piece with its limit; what is folded away is left out', () => {
    const pieces = (view.loads ?? []).flatMap(({ title, series }) =>
      series.map(({ name }) => (name === title ? title : `${title} ${name}`)),
    );
    expect(pieces.length).toBeGreaterThan(3);
    for (const piece of pieces) expect(svg).toContain(`>${piece}</text>`);
    const folded = timelinePicture(view, { folded: ['plant'] });
    for (const piece of pieces) expect(folded).not.toContain(`>${piece}</text>`);
    expect(numberOf(svg, dashed) - numberOf(folded, dashed)).toBe(pieces.length);
    const bare = timelinePicture(view, { folded: ['plant', 'scrubbers', 'supply'] });
    expect(bare).not.toContain('Demand, ');
    expect(numberOf(bare, dashed)).toBe(1);
  });

  test('has the variety that is picked, the chances drawn of it, and the rooms the schedule hangs on', () => {
    const [all, other] = view.supply;
    const [first] = view.rows;
    if (!all || !other || !first) throw new Error('too little to draw');
    const chance = view.weeks.map((_, week) => (week === 5 ? 1 : week === 6 ? 0.25 : 0));
    const drawnOf = (older: boolean) => ({
      ...view,
      drawn: { older, note: 'Forty seasons were drawn.' },
      supply: [all, { ...other, chance }],
      rows: [{ ...first, hangs: { rank: 1, text: 'most of all' } }, ...view.rows.slice(1)],
    });
    const drawn = timelinePicture(drawnOf(false), { series: other.name });
    expect(drawn).toContain(`>Demand, ${other.name}</text>`);
    expect(drawn).toContain('>Chance short</text>');
    expect(drawn).toContain('>to 100 %</text>');
    expect(drawn).toContain('Forty seasons were drawn.');
    // Bars as high as their chances, and one in the key; the weight beneath a room, and one in the key.
    expect(drawn).toContain('width="14" height="19" fill="#b3261e"');
    expect(drawn).toContain('width="14" height="4.75" fill="#b3261e"');
    expect(numberOf(drawn, /M-2\.5 15\.5/g)).toBe(2);
    expect(timelinePicture(drawnOf(true), { series: other.name })).toContain('>Chance short, older</text>');
    expect(timelinePicture(drawnOf(false))).not.toContain('>Chance short</text>');
  });

  test('bears any name', () => {
    const [first] = view.rows;
    if (!first) throw new Error('no rooms');
    const named = { ...first, room: 'a<b>&"c"\u0000\ud800' };
    const drawn = timelinePicture({ ...view, title: '<i>', rows: [named] });
    expect(drawn).toContain('a&lt;b&gt;&amp;&quot;c&quot;');
    for (const letter of ['\u0000', '\ud800']) expect(drawn.includes(letter)).toBe(false);
    expect(drawn).toContain('>&lt;i&gt;<');
  });
});
