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
