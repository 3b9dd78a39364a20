import { noPaint, type Paint } from './paint';
import { PAGE_WIDTH, wrap } from './table';
import type { SightingJson } from './watching';

/** What was seen in the readings, for people: what is going on with its causes, what is over in a line or two each. */
export function sightingsText(sightings: readonly SightingJson[], paint: Paint = noPaint): string[] {
  const going = sightings.filter(({ until }) => until === undefined);
  const over = sightings.filter(({ until }) => until !== undefined);
  return [
    ...(going.length > 0
      ? ['Not as expected:', '', ...going.flatMap((one) => [...goingOn(one, paint), ''])]
      : []),
    ...(over.length > 0 ? ['Over by now:', '', ...over.flatMap((one) => isOver(one, paint)), ''] : []),
  ];
}

function goingOn(one: SightingJson, paint: Paint): string[] {
  const { room, from, told, message, causes, check } = one;
  return [
    `${room}  ${painted(one, paint)}, since ${from}, seen ${told}`,
    ...wrap(`  ${message}`, PAGE_WIDTH, '  '),
    '  Likely:',
    ...causes.flatMap((cause, index) => wrap(`  ${index + 1}. ${cause}`, PAGE_WIDTH, '     ')),
    ...wrap(`  First: ${check}`, PAGE_WIDTH, '  '),
  ];
}

function isOver(one: SightingJson, paint: Paint): string[] {
  const { room, from, until, message } = one;
  return [
    `${room}  ${painted(one, paint)}, ${from} to ${until ?? ''}`,
    ...wrap(`  ${message}`, PAGE_WIDTH, '  '),
  ];
}

function painted({ kind, severity }: SightingJson, paint: Paint): string {
  return `${paint[severity](severity)} ${kind}`;
}
