type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

/** An element with attributes and children; texts become text nodes, never markup. */
export function element<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...children: (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  setAttributes(made, attributes);
  made.append(...children);
  return made;
}

/** An SVG element with attributes and children. */
export function shape<K extends keyof SVGElementTagNameMap>(
  name: K,
  attributes: Attributes = {},
  ...children: Node[]
): SVGElementTagNameMap[K] {
  const made = document.createElementNS('http://www.w3.org/2000/svg', name);
  setAttributes(made, attributes);
  made.append(...children);
  return made;
}

/** `true` is an attribute without a value; `false` and undefined are left out. */
function setAttributes(made: Element, attributes: Attributes): void {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    made.setAttribute(name, value === true ? '' : String(value));
  }
}

/** A place or length in weeks as a share of the chart's width. */
export function across(week: number, weeks: number): string {
  return `${Math.round((1e6 * week) / weeks) / 1e4}%`;
}

/** A stretch of weeks as the attributes of a rectangle. */
export function stretch(
  from: number,
  to: number,
  weeks: number,
): { readonly x: string; readonly width: string } {
  return { x: across(from, weeks), width: across(to - from, weeks) };
}

/** A stretch of weeks as a drawing area of its own, a hundred wide and high, that is pulled to the size it has. */
export function stretched(
  from: number,
  to: number,
  weeks: number,
  place: { readonly y: number | string; readonly height: number | string },
  ...children: Node[]
): SVGSVGElement {
  const area = { viewBox: '0 0 100 100', preserveAspectRatio: 'none', ...stretch(from, to, weeks), ...place };
  return shape('svg', area, ...children);
}

/** Days, weeks, and numbers with a percent sign, as texts have them. */
const WHOLE = /\d{4}-W\d\d|\d{4}-\d\d-\d\d|KW \d\d\/\d{4}|-?\d[\d.,]* %/g;

/** A text whose days and weeks stay in one line. */
export function unbroken(text: string): (Node | string)[] {
  const parts: (Node | string)[] = [];
  let at = 0;
  for (const { 0: whole, index } of text.matchAll(WHOLE)) {
    const between = text.slice(at, index);
    if (index > at) parts.push(between);
    // A span of weeks may go on in the next line.
    if (between === '..') parts.push(element('wbr'));
    parts.push(element('span', { class: 'whole' }, whole));
    at = index + whole.length;
  }
  if (at < text.length) parts.push(text.slice(at));
  return parts;
}
