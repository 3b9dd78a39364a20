import type { CardLesson, LessonPicture } from '../../src/report/card-types';
import { element, shape, unbroken } from './dom';
import { lessonLayout } from './lesson-layout';
import { axisTexts } from './texts';
import { filled, say } from './words';

export interface LessonListHost {
  /** Asks what taking a lesson in would change. */
  askEffects(lesson: string): void;
  take(lesson: string): void;
}

/** What records teach of a room and its lots: for each lesson its line, its pictures, what it changes, and taking it in. */
export class LessonList {
  readonly element = element('section', { class: 'card-part lessons', hidden: true });
  private lessons: readonly CardLesson[] = [];
  private readonly effects = new Map<string, readonly string[] | null | 'asked'>();
  private shownAs = '';

  constructor(private readonly host: LessonListHost) {}

  /** Pictures, or tables alone; the same lessons again change nothing. */
  show(lessons: readonly CardLesson[], mode: 'timeline' | 'table'): void {
    const told = JSON.stringify([lessons, mode]);
    if (told === this.shownAs) return;
    if (JSON.stringify(lessons) !== JSON.stringify(this.lessons)) this.effects.clear();
    this.shownAs = told;
    this.lessons = lessons;
    const focusedId = this.element.contains(document.activeElement) ? document.activeElement?.id : undefined;
    this.element.hidden = lessons.length === 0;
    this.element.replaceChildren(
      element('h3', {}, say.whatRecordsTeach),
      element('p', { class: 'none' }, say.lessonsAre),
      ...lessons.map((lesson) => this.lesson(lesson, mode)),
    );
    if (focusedId) document.getElementById(focusedId)?.focus({ preventScroll: true });
  }

  /** What a lesson would change has come. */
  tell(lesson: string, lines: readonly string[] | null): void {
    this.effects.set(lesson, lines);
    const place = document.getElementById(effectsId(lesson));
    place?.replaceChildren(...this.effectsOf(lesson));
  }

  private lesson(lesson: CardLesson, mode: 'timeline' | 'table'): HTMLElement {
    const { id, title, line, written, differs, remarks, pictures } = lesson;
    const state = written ? say.inThePlan : differs ? say.differsFromPlan : say.agreesWithPlan;
    const part = element(
      'article',
      { class: 'lesson', 'aria-label': title },
      element(
        'h4',
        {},
        title,
        element('span', { class: differs && !written ? 'lesson-state differs' : 'lesson-state' }, state),
      ),
      element('p', { class: 'lesson-line' }, ...unbroken(line)),
      ...(mode === 'timeline'
        ? [element('div', { class: 'lesson-pictures' }, ...pictures.map((one) => picture(one, title)))]
        : pictures.map((one) => pictureTable(one, title))),
      ...remarks.map((remark) => element('p', { class: 'none' }, ...unbroken(remark))),
      element('div', { class: 'lesson-effects', id: effectsId(id), role: 'status' }, ...this.effectsOf(id)),
    );
    if (written) return part;
    const changes = button(`effects-of-${id}`, 'secondary', say.whatItChanges, title, () => {
      this.effects.set(id, 'asked');
      document.getElementById(effectsId(id))?.replaceChildren(...this.effectsOf(id));
      this.host.askEffects(id);
    });
    const take = button(`take-${id}`, 'primary', say.takeItIn, title, () => this.host.take(id));
    part.append(element('div', { class: 'buttons' }, changes, take));
    return part;
  }

  private effectsOf(lesson: string): HTMLElement[] {
    const effects = this.effects.get(lesson);
    if (effects === undefined) return [];
    if (effects === 'asked') return [element('p', { class: 'none' }, say.reckoningEffects)];
    if (effects === null) return [element('p', { class: 'none' }, say.effectsNotTold)];
    if (effects.length === 0) return [element('p', { class: 'none' }, say.changesNothing)];
    return [
      element('p', { class: 'none' }, say.takingItInChanges),
      element('ul', {}, ...effects.map((effect) => element('li', {}, ...unbroken(effect)))),
    ];
  }
}

function effectsId(lesson: string): string {
  return `lesson-effects-${lesson}`;
}

function button(id: string, look: string, label: string, of: string, act: () => void): HTMLElement {
  const made = element(
    'button',
    { type: 'button', class: look, id, 'aria-label': filled(say.buttonOfLesson, label, of) },
    label,
  );
  made.addEventListener('click', act);
  return made;
}

/** The picture, and the same as a table for whoever wants to read the figures off. */
function picture(one: LessonPicture, lesson: string): HTMLElement {
  const { ticks, band, curve, dots, ends } = lessonLayout(one);
  const svg = shape('svg', {
    class: 'lines',
    viewBox: '0 0 100 100',
    preserveAspectRatio: 'none',
    'aria-hidden': 'true',
  });
  for (const { y } of ticks) svg.append(shape('line', { class: 'value-line', x1: 0, x2: 100, y1: y, y2: y }));
  svg.append(
    shape('path', { class: 'lesson-band', d: band }),
    shape('path', { class: 'line lesson-curve', d: curve }),
    shape('path', { class: 'line lesson-seen', d: dots }),
  );
  const axis = element('div', { class: 'value-axis', 'aria-hidden': 'true' });
  const texts = axisTexts(ticks.map(({ value }) => value));
  for (const [index, { y }] of ticks.entries()) {
    const tick = element('span', {}, texts[index] ?? '');
    tick.style.top = `${y}%`;
    axis.append(tick);
  }
  return element(
    'div',
    { class: 'lesson-picture' },
    element('h5', {}, titled(one)),
    element(
      'div',
      {
        class: 'plot-row',
        role: 'img',
        'aria-label': filled(say.lessonPicture, titled(one), one.points.length),
      },
      axis,
      element('div', { class: 'plot still' }, svg),
    ),
    element(
      'div',
      { class: 'lesson-ends', 'aria-hidden': 'true' },
      ...ends.map((end) => element('span', {}, end)),
    ),
    key(),
    element('details', {}, element('summary', {}, say.asTable), pictureTable(one, lesson)),
  );
}

function titled({ title, unit }: LessonPicture): string {
  return unit === '' ? title : `${title}, ${unit}`;
}

function key(): HTMLElement {
  const sample = (look: string, d: string, label: string) =>
    element(
      'li',
      {},
      shape('svg', { width: 26, height: 12, 'aria-hidden': 'true' }, shape('path', { class: look, d })),
      label,
    );
  return element(
    'ul',
    { class: 'key' },
    sample('line lesson-seen', 'M5 6h0.01M13 6h0.01M21 6h0.01', say.seen),
    sample('line lesson-curve', 'M1 6H25', say.fittedTo),
    sample('lesson-band', 'M1 1H25V11H1Z', say.limits95),
  );
}

/** Two lessons of a room have pictures of the same name: the table says of which it is. */
function pictureTable(one: LessonPicture, lesson: string): HTMLElement {
  const heads = [say.when, say.seen, say.fittedTo, say.limits95];
  return element(
    'div',
    { class: 'table', role: 'region', 'aria-label': `${lesson}: ${titled(one)}`, tabindex: 0 },
    element(
      'table',
      {},
      element('caption', {}, titled(one)),
      element(
        'thead',
        {},
        element(
          'tr',
          {},
          ...heads.map((head, at) =>
            element('th', { scope: 'col', class: at > 0 ? 'number' : undefined }, head),
          ),
        ),
      ),
      element(
        'tbody',
        {},
        ...one.points.map(({ label, texts }) =>
          element(
            'tr',
            {},
            element('th', { scope: 'row' }, label),
            ...texts.map((text) => element('td', { class: 'number' }, text)),
          ),
        ),
      ),
    ),
  );
}
