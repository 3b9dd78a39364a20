import type { RandomNumbers } from './random';

/** Invented growers and what their blocks are called. No person's name among them. */
const GROWERS = [
  'Hollow Farm',
  'Weir Orchard',
  'Larkfield',
  'Upper Orrow',
  'Nether Orrow',
  'Quarry Hill',
  'Saltpan Farm',
  'Thornwick Lane',
  'Beacon Down',
  'Ferry Meads',
  'Old Kiln',
  'Sheepwash',
];

const PLACES = [
  'Long Meadow',
  'Mill Bank',
  'High Ridge',
  'Stone Acre',
  'North Terrace',
  'South Terrace',
  'Weir Side',
  'Chalk Pit',
  'Barn Field',
  'Home Field',
  'River Piece',
  'Gorse Hill',
  'Far Close',
  'Twelve Acre',
  'Windbreak',
  'Spring Head',
];

export interface Block {
  readonly grower: string;
  readonly block: string;
}

/** A block of one of the growers. */
export function pickBlock(random: RandomNumbers): Block {
  return { grower: random.pick(GROWERS), block: `${random.pick(PLACES)} ${random.whole(1, 6)}` };
}
