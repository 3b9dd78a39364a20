import type { ScrubberSeries, SupplySeries, TextTarget, TimelineView } from '../../src/report/timeline-types';
import { element } from './dom';
import { drawChance } from './draw-chance';
import { drawScrubber } from './draw-scrubber';
import { drawSupply } from './draw-supply';
import { scrubberShapes, supplyShapes } from './layout';
import { pickedSeries, seriesPicker } from './series-picker';
import type { Part, ViewState } from './state';
import { chanceText, loadWeekText, scaleText, supplyWeekText, whole } from './texts';
import { filled, say } from './words';

export type Tell = (view: TimelineView) => string | undefined;

export interface DockHost {
  reveal(target: TextTarget): void;
  pickSeries(name: string): void;
  fold(part: Part, folded: boolean): void;
  /** Tells what is pointed at, from whichever view is shown; undefined where nothing is. */
  describe(tell: Tell | undefined): void;
}

/** What stands beneath the rooms, on the same weeks: demand against supply, and the scrubbers' load. */
export class Dock {
  /** Demand has a part of its own: where not all has room to stay in view, it does. */
  private readonly demand = element('div', { class: 'dock-part demand-part' });
  private readonly plant = element('div', { class: 'dock-part' });
  readonly element = element('div', { class: 'dock' }, this.demand, this.plant);

  constructor(private readonly host: DockHost) {}

  show(view: TimelineView, state: ViewState): void {
    const focusedId = this.element.contains(document.activeElement) ? document.activeElement?.id : undefined;
    const series = pickedSeries(view, state);
    this.demand.replaceChildren(...(series ? this.supply(view, series, state) : []));
    this.plant.replaceChildren(...groupsOf(view).flatMap((group) => this.equipment(view, state, group)));
    if (focusedId) document.getElementById(focusedId)?.focus({ preventScroll: true });
  }

  /** How much of the dock stays in a chart this high, so that rooms have the larger part of it. */
  staysIn(height: number): 'all' | 'demand' | 'none' {
    const [demand, plant] = [this.demand.offsetHeight, this.plant.offsetHeight];
    if (demand + plant < height * 0.6) return 'all';
    return demand < height * 0.5 ? 'demand' : 'none';
  }

  /** Where what stays begins, from the top of the window. */
  get top(): number {
    // Where its parts lie in the canvas themselves, it has no box of its own.
    const { top, height } = this.element.getBoundingClientRect();
    return height > 0 ? top : this.demand.getBoundingClientRect().top;
  }

  private supply(view: TimelineView, series: SupplySeries, state: ViewState): HTMLElement[] {
    const folded = state.folded.includes('supply');
    const picker = seriesPicker('series', view, series, (name) => this.host.pickSeries(name));
    const head = this.head('supply', say.demand, folded, withoutName(series));
    if (folded) return [head];
    const track = element(
      'div',
      { class: 'track', role: 'img', 'aria-label': series.description },
      drawSupply(series),
    );
    this.tellWeeks(track, view, (shown, week) => {
      const picked = shown.supply.find(({ name }) => name === series.name);
      return picked && supplyWeekText(shown, picked, week);
    });
    const scale = element(
      'div',
      { class: 'name scale' },
      element('span', {}, `${scaleText(supplyShapes(series).top)} ${series.unit}`),
      picker,
    );
    return [head, element('div', { class: 'band supply' }, scale, track), ...this.chances(view, series)];
  }

  /** The chance of being short, where seasons have been drawn. */
  private chances(view: TimelineView, series: SupplySeries): HTMLElement[] {
    const { chance, name } = series;
    if (!chance) return [];
    const older = view.drawn?.older === true;
    const most = chanceText(Math.max(0, ...chance));
    const text = filled(older ? say.chanceBandOlder : say.chanceBand, name, most);
    const track = element(
      'div',
      { class: 'track', role: 'img', 'aria-label': text },
      drawChance(chance, older),
    );
    this.tellWeeks(track, view, (shown, week) => {
      const picked = shown.supply.find((one) => one.name === name);
      return picked && supplyWeekText(shown, picked, week);
    });
    const peakText = element('span', { class: 'peak' }, filled(say.upTo, most));
    const label = element('span', {}, older ? say.chanceShortOlder : say.chanceShort);
    return [
      element('div', { class: 'band chances' }, element('div', { class: 'name' }, label, peakText), track),
    ];
  }

  /** Kinds of equipment under one head, and a row of weekly bars for each piece of them. */
  private equipment(
    view: TimelineView,
    state: ViewState,
    { part, title, summary, kinds }: Group,
  ): HTMLElement[] {
    const folded = state.folded.includes(part);
    const bands = kinds.flatMap((kind) => kind.of(view).map((series) => ({ kind, series })));
    if (bands.length === 0) return [];
    const head = this.head(part, title, folded, summary);
    return folded ? [head] : [head, ...bands.map(({ kind, series }) => this.band(view, part, kind, series))];
  }

  private band(view: TimelineView, part: Part, { of, tell }: Kind, series: ScrubberSeries): HTMLElement {
    const { highest } = scrubberShapes(series);
    const over = highest !== null && highest > series.limit;
    const button = element(
      'button',
      { class: 'link', type: 'button', id: `${part}-${tell}-${series.name}` },
      series.name,
    );
    button.setAttribute('aria-label', filled(say.showInText, series.name));
    button.addEventListener('click', () => this.host.reveal(series.target));
    const track = element(
      'div',
      { class: 'track', role: 'img', 'aria-label': series.description },
      drawScrubber(series),
    );
    this.tellWeeks(track, view, (shown, week) => loadWeekText(shown, of(shown), tell, week));
    const name = element('div', { class: 'name' }, button, peak(highest, over));
    return element('div', { class: 'band scrubber', 'data-part': part }, name, track);
  }

  private head(part: Part, label: string, folded: boolean, summary: string): HTMLElement {
    const button = element(
      'button',
      { class: 'fold', type: 'button', id: `fold-${part}`, 'aria-expanded': String(!folded) },
      label,
    );
    button.addEventListener('click', () => this.host.fold(part, !folded));
    const name = element('div', { class: 'name' }, button);
    return element(
      'div',
      { class: 'band head' },
      name,
      // Where the text is cut off, its beginning says what matters most and the title all of it.
      element('div', { class: 'track', title: summary }, element('span', { class: 'summary' }, summary)),
    );
  }

  private tellWeeks(
    track: HTMLElement,
    view: TimelineView,
    text: (shown: TimelineView, week: number) => string | undefined,
  ): void {
    track.addEventListener('pointermove', (event) => {
      const { left, width } = track.getBoundingClientRect();
      const week = Math.floor(((event.clientX - left) / width) * view.weeks.length);
      const known = week >= 0 && week < view.weeks.length;
      this.host.describe(known ? (shown) => text(shown, week) : undefined);
    });
    track.addEventListener('pointerleave', () => this.host.describe(undefined));
  }
}

interface Kind {
  readonly of: (view: TimelineView) => readonly ScrubberSeries[];
  /** What a week's text calls the load. */
  readonly tell: string;
}

interface Group {
  readonly part: Part;
  readonly title: string;
  readonly summary: string;
  readonly kinds: readonly Kind[];
}

/** The scrubbers, and all other shared equipment under one head. */
function groupsOf(view: TimelineView): Group[] {
  const limit = whole(view.scrubbers[0]?.limit ?? 0);
  const loads = view.loads ?? [];
  const named = loads.map(({ title, what }) => `${title}: ${what}`).join('; ');
  return [
    {
      part: 'scrubbers',
      title: say.scrubbers,
      summary: filled(say.scrubbersSummary, limit),
      kinds: [{ of: (shown) => shown.scrubbers, tell: say.scrubberLoad }],
    },
    {
      part: 'plant',
      title: say.plant,
      summary: filled(say.plantSummary, named),
      kinds: loads.map(({ part, title }) => ({
        of: (shown) => shown.loads?.find((band) => band.part === part)?.series ?? [],
        tell: title,
      })),
    },
  ];
}

/** The highest load of the season; its mark and number stay where there is no room for the word. */
function peak(highest: number | null, over: boolean): HTMLElement {
  const cell = element('span', { class: over ? 'peak over' : 'peak' });
  if (highest === null) cell.append(say.notKnown);
  else
    cell.append(over ? '▲ ' : '', element('span', { class: 'word' }, `${say.peak} `), `${whole(highest)} %`);
  return cell;
}

/** The picker says already which series it is. */
function withoutName({ name, description }: SupplySeries): string {
  const text = description.startsWith(`${name}: `) ? description.slice(name.length + 2) : description;
  return text.charAt(0).toUpperCase() + text.slice(1);
}
