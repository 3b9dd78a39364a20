import type { SupplySeries, TextTarget, TimelineView } from '../../src/report/timeline-types';
import { element } from './dom';
import { drawScrubber } from './draw-scrubber';
import { drawSupply } from './draw-supply';
import { scrubberShapes, supplyShapes } from './layout';
import type { Part, ViewState } from './state';
import { scaleText, scrubberWeekText, supplyWeekText, whole } from './texts';

export interface DockHost {
  reveal(target: TextTarget): void;
  pickSeries(name: string): void;
  fold(part: Part, folded: boolean): void;
  describe(text: string | undefined): void;
}

/** What stands beneath the rooms, on the same weeks: demand against supply, and the scrubbers' load. */
export class Dock {
  readonly element = element('div', { class: 'dock' });

  constructor(private readonly host: DockHost) {}

  show(view: TimelineView, state: ViewState): void {
    const focusedId = this.element.contains(document.activeElement) ? document.activeElement?.id : undefined;
    const bands: HTMLElement[] = [];
    const series = pickedSeries(view, state);
    if (series) bands.push(...this.supply(view, series, state));
    if (view.scrubbers.length > 0) bands.push(...this.scrubbers(view, state));
    this.element.replaceChildren(...bands);
    if (focusedId) document.getElementById(focusedId)?.focus({ preventScroll: true });
  }

  private supply(view: TimelineView, series: SupplySeries, state: ViewState): HTMLElement[] {
    const folded = state.folded.includes('supply');
    const picker = element(
      'select',
      { id: 'series', 'aria-label': 'Variety for demand and supply' },
      ...view.supply.map(({ name }) => element('option', { selected: name === series.name }, name)),
    );
    picker.addEventListener('change', () => this.host.pickSeries(picker.value));
    const head = this.head('supply', 'Demand and supply', folded, folded ? [] : [picker]);
    head.classList.add('supply-head');
    if (folded) return [head];
    const track = element(
      'div',
      { class: 'track', role: 'img', 'aria-label': series.description },
      drawSupply(series),
    );
    this.tellWeeks(track, view, (week) => supplyWeekText(view, series, week));
    const scale = element(
      'div',
      { class: 'name scale' },
      element('span', {}, scaleText(supplyShapes(series).top)),
      element('span', {}, series.unit),
    );
    return [head, element('div', { class: 'band supply' }, scale, track)];
  }

  private scrubbers(view: TimelineView, state: ViewState): HTMLElement[] {
    const folded = state.folded.includes('scrubbers');
    const head = this.head('scrubbers', 'Scrubber load', folded, []);
    if (folded) return [head];
    const bands = view.scrubbers.map((series) => {
      const { highest } = scrubberShapes(series);
      const over = highest !== null && highest > series.limit;
      const button = element(
        'button',
        { class: 'link', type: 'button', id: `scrubber-${series.name}` },
        series.name,
      );
      button.setAttribute('aria-label', `Show ${series.name} in the text`);
      button.addEventListener('click', () => this.host.reveal(series.target));
      const peak = highest === null ? 'not known' : `${over ? '▲ ' : ''}peak ${whole(highest)} %`;
      const track = element(
        'div',
        { class: 'track', role: 'img', 'aria-label': series.description },
        drawScrubber(series),
      );
      this.tellWeeks(track, view, (week) => scrubberWeekText(view, week));
      const name = element(
        'div',
        { class: 'name' },
        button,
        element('span', { class: over ? 'peak over' : 'peak' }, peak),
      );
      return element('div', { class: 'band scrubber' }, name, track);
    });
    return [head, ...bands];
  }

  private head(part: Part, label: string, folded: boolean, controls: HTMLElement[]): HTMLElement {
    const button = element(
      'button',
      { class: 'fold', type: 'button', id: `fold-${part}`, 'aria-expanded': String(!folded) },
      label,
    );
    button.addEventListener('click', () => this.host.fold(part, !folded));
    const name = element('div', { class: 'name' }, button, ...controls);
    return element('div', { class: 'band head' }, name, element('div', { class: 'track' }));
  }

  private tellWeeks(track: HTMLElement, view: TimelineView, text: (week: number) => string): void {
    track.addEventListener('pointermove', (event) => {
      const { left, width } = track.getBoundingClientRect();
      const week = Math.floor(((event.clientX - left) / width) * view.weeks.length);
      this.host.describe(week >= 0 && week < view.weeks.length ? text(week) : undefined);
    });
    track.addEventListener('pointerleave', () => this.host.describe(undefined));
  }
}

/** The series that the person has picked; all varieties where it is gone. */
export function pickedSeries(view: TimelineView, state: ViewState): SupplySeries | undefined {
  return view.supply.find(({ name }) => name === state.series) ?? view.supply[0];
}
