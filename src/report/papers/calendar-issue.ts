import { type Property, propertiesOf } from './calendar-lines';

/** An event before it is known whether it was issued before. */
export interface CalendarEvent {
  readonly uid: string;
  /** What a person sees of it; an event whose properties are the same has not changed. */
  readonly told: readonly Property[];
}

export interface IssuedEvent extends CalendarEvent {
  /** Grows by one with each change, and with nothing else. */
  readonly sequence: number;
  /** When it was last changed, as the file has it. */
  readonly stamp: string;
  readonly cancelled: boolean;
}

export interface PreviousCalendar {
  /** Which plan's and whose calendar it is; empty where the file does not say. */
  readonly identity: string;
  readonly product: string;
  readonly events: readonly IssuedEvent[];
}

/**
 * The events of the next issue, in the order of their identifiers. An event that stays as it was keeps its number and
 * stamp; one that changed, is gone or has come back gets the next number. What is gone stays in the file as cancelled:
 * a calendar that is subscribed to would else keep showing it.
 */
export function nextIssue(
  events: readonly CalendarEvent[],
  previous: readonly IssuedEvent[],
  stamp: string,
): IssuedEvent[] {
  const before = new Map(previous.map((event) => [event.uid, event]));
  const now = new Map(events.map((event) => [event.uid, event]));
  const issued = [...now.values()].map((event): IssuedEvent => {
    const old = before.get(event.uid);
    if (!old) return { ...event, sequence: 0, stamp, cancelled: false };
    if (!old.cancelled && isSame(old, event))
      return { ...event, sequence: old.sequence, stamp: old.stamp, cancelled: false };
    return { ...event, sequence: old.sequence + 1, stamp, cancelled: false };
  });
  const gone = [...before.values()]
    .filter(({ uid }) => !now.has(uid))
    .map((old) => (old.cancelled ? old : { ...old, sequence: old.sequence + 1, stamp, cancelled: true }));
  return [...issued, ...gone].sort((a, b) => (a.uid < b.uid ? -1 : a.uid > b.uid ? 1 : 0));
}

function isSame(a: CalendarEvent, b: CalendarEvent): boolean {
  return JSON.stringify(a.told) === JSON.stringify(b.told);
}

const OF_ISSUE = new Set(['UID', 'DTSTAMP', 'SEQUENCE', 'STATUS']);

/** A calendar issued before. Never throws: what is no event with an identifier is left out. */
export function readCalendar(text: string, identityName: string): PreviousCalendar {
  const properties = propertiesOf(text);
  const outside = new Map<string, string>();
  const events: IssuedEvent[] = [];
  let inside: Property[] | undefined;
  for (const [name, value] of properties) {
    if (name === 'BEGIN' && value === 'VEVENT') inside = [];
    else if (name === 'END' && value === 'VEVENT') {
      events.push(...issuedEvent(inside ?? []));
      inside = undefined;
    } else if (inside) inside.push([name, value]);
    else outside.set(name, value);
  }
  return {
    identity: outside.get(identityName) ?? '',
    product: outside.get('PRODID') ?? '',
    events,
  };
}

function issuedEvent(properties: readonly Property[]): IssuedEvent[] {
  const of = (wanted: string) => properties.find(([name]) => name === wanted)?.[1];
  const uid = of('UID');
  if (uid === undefined) return [];
  const sequence = Number(of('SEQUENCE') ?? 0);
  return [
    {
      uid,
      told: properties.filter(([name]) => !OF_ISSUE.has(name)),
      sequence: Number.isSafeInteger(sequence) && sequence >= 0 ? sequence : 0,
      stamp: of('DTSTAMP') ?? '19700101T000000Z',
      cancelled: of('STATUS') === 'CANCELLED',
    },
  ];
}
