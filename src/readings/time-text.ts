import { formatDay } from '../plan/dates';
import type { Minute } from './types';

const MINUTES_A_DAY = 1440;

/** `2026-09-18 06:00`, by the clock of the file. */
export function timeText(minute: Minute): string {
  const inDay = ((minute % MINUTES_A_DAY) + MINUTES_A_DAY) % MINUTES_A_DAY;
  const [hour, left] = [Math.floor(inDay / 60), Math.floor(inDay % 60)];
  const two = (value: number) => String(value).padStart(2, '0');
  return `${formatDay(Math.floor(minute / MINUTES_A_DAY))} ${two(hour)}:${two(left)}`;
}
