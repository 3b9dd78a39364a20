import type { FillLot } from '../model';
import type { MapReader } from './map-reader';

/** The lots that a map names with their bins, in the order of the text; `nameOf` names the bins of a lot. */
export function lotBins(map: MapReader | undefined, nameOf: (lot: string) => string): FillLot[] {
  const counts = map?.counts(nameOf, 'bins') ?? [];
  return counts.map(({ key, count }) => ({ lot: key, bins: count }));
}
