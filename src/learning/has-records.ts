import type { Plan } from '../plan/model';

/** Whether any of the plan's records could teach something: readings, samples, packed runs, or receipts. */
export function hasRecordsToLearnFrom({ readings, samples, packed, lots }: Plan): boolean {
  if (readings.size > 0 || samples.size > 0 || packed.size > 0) return true;
  for (const { receivedBins } of lots.values()) if (receivedBins) return true;
  return false;
}
