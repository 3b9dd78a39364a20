import type { CardName, FromPanel, TextTarget } from '../src/report/timeline-types';

/** A message of the panel's page, if it is one: what a page sends is not trusted. */
export function fromPanel(message: unknown): FromPanel | undefined {
  if (!isRecord(message)) return undefined;
  switch (message.kind) {
    case 'ready':
    case 'compare':
    case 'computeRelease':
    case 'cancelRelease':
      return { kind: message.kind };
    case 'begin':
      return isWay(message.with) ? { kind: 'begin', with: message.with } : undefined;
    case 'pin':
      return typeof message.fill === 'string' ? { kind: 'pin', fill: message.fill } : undefined;
    case 'askWeek':
      return typeof message.fill === 'string' && (message.week === undefined || isOffset(message.week))
        ? {
            kind: 'askWeek',
            fill: message.fill,
            ...(message.week !== undefined && { week: Number(message.week) }),
          }
        : undefined;
    case 'picture': {
      const { format, data } = message;
      if ((format !== 'svg' && format !== 'png') || (data !== null && typeof data !== 'string'))
        return undefined;
      return { kind: 'picture', format, data };
    }
    case 'moveTo':
    case 'pinAround':
      return typeof message.fill === 'string' && isOffset(message.week)
        ? { kind: message.kind, fill: message.fill, week: Number(message.week) }
        : undefined;
    case 'askCard': {
      const card = cardName(message.card);
      return card && { kind: 'askCard', card };
    }
    case 'askEffects':
    case 'takeLesson':
      return typeof message.lesson === 'string' ? { kind: message.kind, lesson: message.lesson } : undefined;
    case 'askFigure':
      return typeof message.figure === 'string' ? { kind: 'askFigure', figure: message.figure } : undefined;
    case 'reveal':
      return isTarget(message.target) ? { kind: 'reveal', target: message.target } : undefined;
    default:
      return undefined;
  }
}

/** The fill of the row whose menu a command was taken from; undefined for anything else. */
export function fillOfRow(context: unknown): string | undefined {
  return isRecord(context) && typeof context.fill === 'string' ? context.fill : undefined;
}

type Way = Extract<FromPanel, { kind: 'begin' }>['with'];

const WAYS: readonly Way[] = ['sample', 'newPlan', 'folder', 'walkthrough'];

function isWay(value: unknown): value is Way {
  return WAYS.some((way) => way === value);
}

function cardName(value: unknown): CardName | undefined {
  if (!isRecord(value)) return undefined;
  if (value.of === 'season') return { of: 'season' };
  return value.of === 'room' && typeof value.key === 'string' ? { of: 'room', key: value.key } : undefined;
}

function isTarget(value: unknown): value is TextTarget {
  return isRecord(value) && typeof value.file === 'string' && isOffset(value.start) && isOffset(value.end);
}

function isOffset(value: unknown): boolean {
  return typeof value === 'number' && Number.isInteger(value) && value >= 0;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}
