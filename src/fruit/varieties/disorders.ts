import { referenceFigure } from '../../plan/figure';
import type { DisorderId } from '../../plan/model';
import { expected, one, type Printed } from '../printed';
import { remark, sources } from '../sources';
import type { Disorder } from '../types';

/**
 * Disorders of stored fruit: when in storage they come and on what conditions, as sources tell. No source gives chances
 * that would hold for another orchard or year, so none are given. Weeks are counted from picking, or from sealing where
 * the atmosphere is what injures.
 */

const titles: Readonly<Record<DisorderId, string>> = {
  'carbon-dioxide-injury': 'carbon dioxide injury',
  'low-oxygen-injury': 'low-oxygen injury',
  'chilling-injury': 'chilling injury',
  scald: 'superficial scald',
  'senescent-scald': 'senescent scald',
  'soft-scald': 'soft scald and soggy breakdown',
  browning: 'internal browning',
  'bitter-pit': 'bitter pit',
};

export const disorderIds = Object.keys(titles) as readonly DisorderId[];

export function disorderTitle(id: DisorderId): string {
  return titles[id];
}

const days = (name: string, printed: Printed) => expected(name, 'days', printed);
const percent = (name: string, printed: Printed) => expected(name, '%', printed);

/** The first months, in which most carbon dioxide injury comes. */
const fourMonths = days(
  'months after sealing in which carbon dioxide injures',
  one(4, 'months', remark(sources.mattheisCarbonDioxide, 'injury mostly in the first four months')),
);

function carbonDioxideInjury(more: Partial<Disorder> = {}): Disorder {
  return {
    id: 'carbon-dioxide-injury',
    countedFrom: 'sealing',
    susceptible: 'highly',
    conditions: [{ kind: 'carbon dioxide above its limit' }],
    from: days('days after sealing from which it injures', one(0, 'days', sources.mattheisCarbonDioxide)),
    until: fourMonths,
    told: 'Susceptible; injury comes mostly in the first four months.',
    source: sources.mattheisCarbonDioxide,
    ...more,
  };
}

function lowOxygenInjury(told: string, source: Disorder['source']): Disorder {
  return {
    id: 'low-oxygen-injury',
    countedFrom: 'sealing',
    susceptible: 'highly',
    conditions: [{ kind: 'oxygen below its limit' }],
    from: days('days after sealing from which it injures', one(0, 'days', source)),
    told,
    source,
  };
}

function chillingInjury(told: string, source: Disorder['source'], sealed = false): Disorder {
  return {
    id: 'chilling-injury',
    countedFrom: 'picking',
    susceptible: 'highly',
    conditions: [{ kind: 'temperature below its limit' }, ...(sealed ? [{ kind: 'sealed' } as const] : [])],
    from: days('days after picking from which cold injures', one(0, 'days', source)),
    told,
    source,
  };
}

const threeMonths = days(
  'days after picking before scald is usually evident',
  one(3, 'months', remark(sources.ucDavisScald, 'usually not evident until after 3 months of storage')),
);

const ninetyDays = days(
  'days after harvest by which unprotected fruit is marketed before it scalds',
  one(90, 'days', remark(sources.usdaScald, 'usually within 60 to 90 days for susceptible varieties')),
);

/** Superficial scald of untreated fruit. Fruit of a very susceptible variety kept in air is marketed before it. */
function scald(susceptible: Disorder['susceptible']): Disorder {
  return {
    id: 'scald',
    countedFrom: 'picking',
    susceptible,
    conditions: [{ kind: 'not treated', with: ['antioxidant', '1-mcp'] }],
    from: threeMonths,
    ...(susceptible === 'highly' && { packedByInAir: ninetyDays }),
    told:
      susceptible === 'highly'
        ? 'Very susceptible; it shows within 3 to 7 days of warming. Low oxygen lessens it.'
        : 'Moderately susceptible; it shows within 3 to 7 days of warming. Low oxygen lessens it.',
    source: sources.ucDavisScald,
  };
}

const chillingSensitive = chillingInjury(
  'Sensitive to chilling; the source gives no week from which it shows.',
  sources.prangeWright,
);

const softScaldFrom = days(
  'storage after which soft scald developed',
  one(2, 'months', remark(sources.honeycrispCornellTrial, 'only after two months of storage')),
);

/** Disorders by variety; a variety without an entry has none that a source was read for. */
const byVariety: Readonly<Record<string, readonly Disorder[]>> = {
  Braeburn: [
    carbonDioxideInjury({
      until: days('days of storage in which browning develops', one(14, 'days', sources.elgar)),
      easedByDelay: days('delay before CA that lessens it', one(14, 'days', sources.elgar)),
      told: 'Braeburn browning disorder develops in the first two weeks of storage; less oxygen makes it worse.',
      source: sources.elgar,
    }),
  ],
  Delicious: [
    lowOxygenInjury('0.5 % oxygen for 7 months injured it slightly.', sources.lau1990),
    scald('highly'),
  ],
  Empire: [carbonDioxideInjury()],
  Fuji: [
    carbonDioxideInjury({
      from: days('days after CA is set up until injury is visible', one(15, 'days', sources.argenta)),
      easedByDelay: days(
        'delay before CA that lessens it',
        one(14, 'days', remark(sources.argenta, 'CA delayed by 2 to 12 weeks')),
      ),
      told: '3 % injures; visible from day 15, and it grows worse for four months.',
      source: sources.argenta,
    }),
    scald('moderately'),
  ],
  Gala: [
    {
      id: 'browning',
      countedFrom: 'sealing',
      susceptible: 'highly',
      conditions: [{ kind: 'sealed' }],
      from: days(
        'days in CA with little browning',
        one(5, 'months', remark(sources.deellGala, 'little through five months, much more after')),
      ),
      easedByStarch: referenceFigure(
        'starch below which browning is least',
        '1',
        4,
        remark(sources.cornellGala, 'browning risk least with starch below 4.0'),
      ),
      told: 'Little through five months of standard CA, clearly more after; worse in late-picked fruit and after warming.',
      source: sources.deellGala,
    },
    scald('moderately'),
  ],
  'Golden Delicious': [
    carbonDioxideInjury(),
    {
      id: 'senescent-scald',
      countedFrom: 'picking',
      susceptible: 'moderately',
      conditions: [],
      from: days('storage after which it occurs', one(7, 'months', sources.wsuSenescentScald)),
      told: 'Seen after seven months and more, worst in fruit picked late and yellow.',
      source: sources.wsuSenescentScald,
    },
  ],
  'Granny Smith': [scald('highly')],
  Honeycrisp: [
    carbonDioxideInjury({
      levelIfTreated: {
        with: 'antioxidant',
        level: percent(
          'carbon dioxide borne with an antioxidant',
          one(2, '%', remark(sources.cornellHoneycrisp, '2 % with an antioxidant drench, else below 1 %')),
        ),
      },
      easedByDelay: days(
        'delay before CA that spares it',
        one(21, 'days', remark(sources.cornellHoneycrisp, 'CA delayed 3 to 4 weeks')),
      ),
    }),
    {
      id: 'soft-scald',
      countedFrom: 'picking',
      susceptible: 'highly',
      conditions: [{ kind: 'not conditioned' }],
      from: softScaldFrom,
      told: 'Worst at 0.5 °C (33 °F); conditioning at 10 °C (50 °F) for 5 to 7 days usually prevents it. Late-picked fruit gets it even at 3 °C (37 °F).',
      source: sources.honeycrispCornellTrial,
    },
    {
      ...chillingInjury(
        'Soft scald and soggy breakdown were worst at 0.5 °C (33 °F); conditioning lessened them there and did not prevent them.',
        sources.honeycrispCornellTrial,
      ),
      from: softScaldFrom,
    },
    {
      id: 'bitter-pit',
      countedFrom: 'picking',
      susceptible: 'highly',
      conditions: [{ kind: 'conditioned' }],
      from: days('storage before bitter pit shows', one(0, 'days', sources.honeycrispCornellTrial)),
      until: days(
        'storage in which most bitter pit shows',
        one(1, 'months', remark(sources.honeycrispCornellTrial, 'at harvest and in the first month')),
      ),
      told: 'Conditioning makes it worse. Blocks prone to it are kept without conditioning and sold early.',
      source: sources.honeycrispCornellTrial,
    },
  ],
  Jonagold: [carbonDioxideInjury()],
  McIntosh: [
    chillingInjury(
      'Internal browning after 6 months in CA at 1 °C; few fruit at 3 °C, and no risk in air.',
      sources.chuMcIntosh,
      true,
    ),
  ],
  Bosc: [lowOxygenInjury('Brown core.', sources.oregonBosc)],
  Rome: [scald('highly')],
  Spartan: [lowOxygenInjury('0.5 % oxygen for 7 months injured it badly.', sources.lau1990)],
  Winesap: [scald('highly')],
};

/** A variety's disorders. `chills` is true of those that the review of temperatures calls sensitive to chilling. */
export function disordersOf(name: string, chills: boolean): readonly Disorder[] {
  const own = byVariety[name] ?? [];
  const hasChilling = own.some(({ id }) => id === 'chilling-injury');
  return chills && !hasChilling ? [...own, chillingSensitive] : own;
}
