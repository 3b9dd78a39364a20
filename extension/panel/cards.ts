import type { RoomCard, SeasonCard } from '../../src/report/card-types';
import type { CardName, FromPanel, TextTarget, TimelineView, ToPanel } from '../../src/report/timeline-types';
import { element } from './dom';
import { RoomCardView } from './room-card';
import { SeasonCardView } from './season-card';
import type { ViewState } from './state';
import { filled, say } from './words';

export interface CardsHost {
  send(message: FromPanel): void;
  reveal(target: TextTarget): void;
  /** Says to a screen reader what has come. */
  announce(text: string): void;
  /** To another card, or back to the rooms. */
  open(card: CardName | undefined): void;
  /** The key of the row so many rows further in the order shown; undefined past either end. */
  keyAfter(key: string, rows: number): string | undefined;
}

const KINDS = ['roomCard', 'seasonCard', 'explained', 'roomLessons', 'lessonEffects'] as const;

type CardMessage = Extract<ToPanel, { kind: (typeof KINDS)[number] }>;

export function isOfCards(message: ToPanel): message is CardMessage {
  return KINDS.some((kind) => kind === message.kind);
}

/** The cards of the page: asks for the one that is open, anew with each new view, and shows what comes. */
export class Cards {
  readonly element = element('div', { class: 'cards', hidden: true });
  private readonly room: RoomCardView;
  private readonly season: SeasonCardView;
  private roomCard: RoomCard | null | undefined;
  private seasonCard: SeasonCard | null | undefined;
  /** What was asked for last, and for which view. */
  private asked: string | undefined;
  private open: CardName | undefined;
  /** The card that was announced last: each is once, as it comes. */
  private announced: string | undefined;
  private mode: ViewState['mode'] = 'timeline';

  constructor(private readonly host: CardsHost) {
    const reveal = (target: TextTarget) => host.reveal(target);
    this.room = new RoomCardView({
      reveal,
      askFigure: (figure) => host.send({ kind: 'askFigure', figure }),
      step: (rows) => this.step(rows),
      close: () => host.open(undefined),
      askEffects: (lesson) => host.send({ kind: 'askEffects', lesson }),
      take: (lesson) => host.send({ kind: 'takeLesson', lesson }),
    });
    this.season = new SeasonCardView({ reveal, close: () => host.open(undefined) });
    this.element.append(this.room.element, this.season.element);
    this.element.addEventListener('keydown', (event) => this.key(event));
  }

  /** Shows the card that the state says, or none; asked for anew with each new view, and once what was older is not. */
  show(view: TimelineView, state: ViewState, isOlder: boolean): void {
    const { open } = state;
    const another = JSON.stringify(open) !== JSON.stringify(this.open ?? null);
    this.open = open ?? undefined;
    if (!open) this.announced = undefined;
    this.mode = state.mode;
    if (!open) return;
    if (another && open.of === 'room' && this.roomCard?.key !== open.key) this.roomCard = undefined;
    const question = `${view.plan ?? view.title} ${view.revision} ${isOlder} ${JSON.stringify(open)}`;
    if (question !== this.asked) {
      this.asked = question;
      this.host.send({ kind: 'askCard', card: open });
    }
    this.draw();
    if (another) this.focus();
  }

  receive(message: CardMessage): void {
    if (message.kind === 'explained') {
      this.room.explain(message);
      return;
    }
    if (message.kind === 'roomLessons') {
      if (this.open?.of === 'room' && message.key === this.open.key)
        this.room.teach(message.key, message.lessons);
      return;
    }
    if (message.kind === 'lessonEffects') {
      this.room.lessons.tell(message.lesson, message.lines);
      return;
    }
    const isOlder = message.card !== null && message.older === true;
    if (message.kind === 'seasonCard') {
      this.seasonCard = message.card;
      this.season.older.show(isOlder);
      // Its card may come when the rooms are shown again: then there is nothing to tell.
      if (this.open?.of !== 'season') return;
    } else if (this.open?.of === 'room' && message.key === this.open.key) {
      this.roomCard = message.card;
      this.room.older.show(isOlder);
    } else return;
    this.draw();
    if (message.card) this.announce(filled(say.cardNamed, message.card.title));
    else if (message.kind === 'roomCard') this.announce(say.roomGone);
  }

  /** Another card than the one before has come, or the room is gone. */
  private announce(title: string): void {
    if (title === this.announced) return;
    this.announced = title;
    this.host.announce(title);
  }

  focus(): void {
    (this.open?.of === 'season' ? this.season : this.room).element.focus({ preventScroll: true });
  }

  private draw(): void {
    this.room.element.hidden = this.open?.of !== 'room';
    this.season.element.hidden = this.open?.of !== 'season';
    if (this.open?.of === 'room') this.room.show(this.roomCard, this.mode);
    else if (this.open) this.season.show(this.seasonCard);
  }

  private step(rows: number): void {
    if (this.open?.of !== 'room') return;
    const key = this.host.keyAfter(this.open.key, rows);
    if (key !== undefined) this.host.open({ of: 'room', key });
  }

  private key(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const steps: Readonly<Record<string, number>> = { '[': -1, ']': 1 };
    const rows = steps[event.key];
    if (event.key === 'Escape') this.host.open(undefined);
    else if (rows !== undefined) this.step(rows);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }
}
