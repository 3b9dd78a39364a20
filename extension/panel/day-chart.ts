import type { DayChart, DayLine, RoomCard } from '../../src/report/card-types';
import { dayAt, dayText, dayTicks, heightOf, isPoints, linePath, pointsPath, valueTicks } from './day-layout';
import { element, shape, unbroken } from './dom';
import { axisTexts } from './texts';
import { filled, say } from './words';

const WEEK = 7;

export interface DayChartHost {
  /** The day that is read off is another one. */
  readDay(day: number): void;
}

/** A chart of a card: its lines over the days, read off by pointer or by keys. */
export class DayChartView {
  readonly element: HTMLElement;
  private readonly plot: HTMLElement;
  private readonly cursor = element('div', { class: 'day-cursor', hidden: true });
  private readonly readout = element('p', { class: 'readout' });
  private readonly days = element('div', { class: 'day-axis', 'aria-hidden': 'true' });

  constructor(
    private readonly card: RoomCard,
    private readonly chart: DayChart,
    private readonly host: DayChartHost,
    at: number,
  ) {
    this.plot = element(
      'div',
      {
        class: 'plot',
        id: `plot-${chart.id}`,
        role: 'slider',
        tabindex: 0,
        'aria-label': `${filled(say.chartDayByDay, chart.title)} ${chart.description}`,
        'aria-valuemin': 0,
        'aria-valuemax': Math.max(0, card.days.length - 1),
      },
      this.drawing(),
      this.cursor,
    );
    const unit = chart.unit === '' ? '' : `, ${chart.unit}`;
    this.element = element(
      'section',
      { class: 'day-chart' },
      element('h3', {}, `${chart.title}${unit}`),
      element('p', { class: 'chart-note' }, ...unbroken(chart.description)),
      element('div', { class: 'plot-row' }, valueAxis(chart), this.plot),
      this.days,
      this.readout,
      legend(chart),
    );
    this.listen();
    this.read(at);
    new ResizeObserver(() => this.label()).observe(this.plot);
  }

  /** Shows the values of a day. */
  read(day: number): void {
    const last = Math.max(1, this.card.days.length - 1);
    this.cursor.hidden = false;
    this.cursor.style.left = `${(100 * day) / last}%`;
    const text = dayText(this.card, this.chart, day);
    this.readout.replaceChildren(...unbroken(text));
    this.plot.setAttribute('aria-valuenow', String(day));
    this.plot.setAttribute('aria-valuetext', text);
  }

  private drawing(): SVGSVGElement {
    const { chart, card } = this;
    const last = Math.max(1, card.days.length - 1);
    const svg = shape('svg', {
      class: 'lines',
      viewBox: '0 0 100 100',
      preserveAspectRatio: 'none',
      'aria-hidden': 'true',
    });
    for (const value of valueTicks(chart)) {
      const y = 100 * heightOf(value, chart);
      svg.append(shape('line', { class: 'value-line', x1: 0, x2: 100, y1: y, y2: y }));
    }
    for (const { day } of card.months) {
      const x = (100 * day) / last;
      svg.append(shape('line', { class: 'month-line', x1: x, x2: x, y1: 0, y2: 100 }));
    }
    for (const { day, kind } of card.events) {
      if (kind !== 'sealed' && kind !== 'opens') continue;
      const x = (100 * day) / last;
      svg.append(shape('line', { class: 'event-line', x1: x, x2: x, y1: 0, y2: 100 }));
    }
    for (const line of chart.lines)
      svg.append(
        shape('path', {
          class: `line ${line.look}`,
          d: isPoints(line.look) ? pointsPath(line.values, chart) : linePath(line.values, chart),
        }),
      );
    return svg;
  }

  private label(): void {
    const width = this.plot.clientWidth;
    this.days.replaceChildren(
      ...dayTicks(this.card, width).map(({ at, label }) => {
        const tick = element('span', {}, label);
        tick.style.left = `${100 * at}%`;
        return tick;
      }),
    );
  }

  private listen(): void {
    const { plot, card } = this;
    plot.addEventListener('pointermove', (event) => {
      const { left, width } = plot.getBoundingClientRect();
      if (width > 0) this.host.readDay(dayAt((event.clientX - left) / width, card.days.length));
    });
    plot.addEventListener('keydown', (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const now = Number(plot.getAttribute('aria-valuenow'));
      const next = dayAfter(event.key, now, card.days.length - 1);
      if (next === undefined) return;
      event.preventDefault();
      event.stopPropagation();
      this.host.readDay(Math.max(0, Math.min(card.days.length - 1, next)));
    });
  }
}

function dayAfter(key: string, now: number, last: number): number | undefined {
  const steps: Readonly<Record<string, number>> = {
    ArrowRight: now + 1,
    ArrowUp: now + 1,
    ArrowLeft: now - 1,
    ArrowDown: now - 1,
    PageUp: now + WEEK,
    PageDown: now - WEEK,
    Home: 0,
    End: last,
  };
  return steps[key];
}

function valueAxis(chart: DayChart): HTMLElement {
  const values = valueTicks(chart);
  const texts = axisTexts(values);
  return element(
    'div',
    { class: 'value-axis', 'aria-hidden': 'true' },
    ...values.map((value, index) => {
      const tick = element('span', {}, texts[index] ?? '');
      tick.style.top = `${100 * heightOf(value, chart)}%`;
      return tick;
    }),
  );
}

/** What each line is, once a look: the fruit of every day is drawn alike. */
function legend({ lines }: DayChart): HTMLElement {
  const seen = new Map<string, DayLine>();
  for (const line of lines) if (!seen.has(line.look)) seen.set(line.look, line);
  return element(
    'ul',
    { class: 'key' },
    ...[...seen.values()].map(({ look, name }) =>
      element(
        'li',
        {},
        shape(
          'svg',
          { width: 26, height: 12, 'aria-hidden': 'true' },
          shape('path', {
            class: `line ${look}`,
            d: isPoints(look) ? 'M5 6h0.01M13 6h0.01M21 6h0.01' : 'M1 6 H25',
          }),
        ),
        look === 'batch' ? say.fruitOfEachDay : name,
      ),
    ),
  );
}
