import { compute, type Figure, referenceFigure } from '../plan/figure';
import type { RegimeOverride, VarietyOverride } from '../plan/model';
import { commonPractice } from './sources';
import type { Disorder, Regime, Variety } from './types';

/**
 * A variety with the planner's values laid over `base`. `name` is its own name; `ownRegimes` the plan's regimes that
 * are meant for it.
 */
export function overlaidVariety(
  name: string,
  base: Variety,
  own: VarietyOverride,
  ownRegimes: readonly string[],
): Variety {
  const { storageLifeRange, storageLifeInAirRange, ...rest } = base;
  return {
    ...rest,
    ...(!own.storageLife && storageLifeRange && { storageLifeRange }),
    ...(!own.storageLifeInAir && storageLifeInAirRange && { storageLifeInAirRange }),
    name,
    respiration: ownRespiration(own) ?? base.respiration,
    respirationInStore: own.respirationInStore
      ? aroundOwn(own.respirationInStore, base.respirationInStore)
      : base.respirationInStore,
    respiratoryQuotient: own.respiratoryQuotient ?? base.respiratoryQuotient,
    ...(own.transpiration && { transpiration: own.transpiration }),
    specificHeat: own.specificHeat ?? base.specificHeat,
    density: own.density ?? base.density,
    storageLifeInAir: own.storageLifeInAir ?? base.storageLifeInAir,
    storageLife: own.storageLife ?? base.storageLife,
    ...(own.keepsShorter && { keepsShorter: own.keepsShorter }),
    leastTemperature: own.leastTemperature ?? base.leastTemperature,
    leastOxygen: own.leastOxygen ?? base.leastOxygen,
    oxygenBreakpoint: own.oxygenBreakpoint ?? breakpointOf(base, own),
    mostCarbonDioxide: own.mostCarbonDioxide ?? base.mostCarbonDioxide,
    leastExitFirmness: own.leastExitFirmness ?? base.leastExitFirmness,
    softening: own.softening ?? base.softening,
    regimes: [...new Set([...base.regimes, ...ownRegimes])],
    disorders: ownDisorders(own, base.disorders),
  };
}

/**
 * Disorders with the planner's days in place of the sources', and without those not watched for. A disorder that no
 * source has for the variety is taken to threaten all its fruit, from the day the planner gives.
 */
function ownDisorders({ disorders: own, source }: VarietyOverride, base: Variety['disorders']) {
  if (!own) return base;
  const ids = [...new Set([...base, ...own].map(({ id }) => id))];
  return ids.flatMap((id): Disorder[] => {
    const known = base.find((one) => one.id === id);
    const said = own.find((one) => one.id === id);
    if (!said) return known ? [known] : [];
    const from = said.from ?? known?.from ?? said.packedBy;
    if (!said.watched || !from) return [];
    const until = said.until ?? (said.from ? undefined : known?.until);
    const start: Disorder = known ?? {
      id,
      countedFrom: id === 'carbon-dioxide-injury' || id === 'low-oxygen-injury' ? 'sealing' : 'picking',
      susceptible: 'highly',
      conditions: [],
      from,
      told: 'As the plan says.',
      source: { citation: source ?? 'The plan', known: 'common practice' },
    };
    const { until: _, packedByInAir, ...kept } = start;
    return [
      {
        ...kept,
        from,
        ...(until && { until }),
        ...(said.packedBy ? { packedBy: said.packedBy } : packedByInAir && { packedByInAir }),
      },
    ];
  });
}

/**
 * A breakpoint that was measured stands. One that is only assumed gives way to the planner's own least oxygen, which
 * says that fruit does not ferment above it.
 */
function breakpointOf({ oxygenBreakpoint: usual }: Variety, { leastOxygen }: VarietyOverride): Figure<'%'> {
  const assumed = usual.origin.kind === 'reference' && usual.origin.source.known === 'common practice';
  if (!leastOxygen || !assumed || !(leastOxygen.value > 0)) return usual;
  return compute(usual.name, '%', 'min(usual, leastOxygen)', { usual, leastOxygen }, (v) =>
    Math.min(v.usual, v.leastOxygen),
  );
}

/**
 * A regime with the planner's values laid over `base`. Without a base nothing of the gas is assumed: a regime that
 * says no oxygen is a room kept in air, at the temperature given or else at 1 °C.
 */
export function overlaidRegime(
  own: RegimeOverride,
  base: Regime | undefined,
  canonicalName: (name: string) => string,
): Regime {
  const oxygen = own.oxygen ?? base?.oxygen;
  const carbonDioxide = own.carbonDioxide ?? base?.carbonDioxide;
  const storageLife = own.storageLife ?? base?.storageLife;
  const storageLifeRange = own.storageLife ? undefined : base?.storageLifeRange;
  const conditioning = own.conditioning ?? base?.conditioning;
  const stages = own.stages ?? base?.stages;
  return {
    name: own.id,
    varieties: own.varieties?.map(({ value }) => canonicalName(value)) ?? base?.varieties ?? [],
    temperature: own.temperature ?? base?.temperature ?? usualTemperature,
    humidity: own.humidity ?? base?.humidity ?? usualHumidity,
    ...(oxygen && { oxygen }),
    ...(carbonDioxide && { carbonDioxide }),
    ...(storageLife && { storageLife }),
    ...(storageLifeRange && { storageLifeRange }),
    ...(base?.softening && { softening: base.softening }),
    ...(conditioning && { conditioning }),
    ...(stages && { stages }),
  };
}

const usualTemperature = referenceFigure(
  'holding temperature',
  'degC',
  1,
  commonPractice('The regime gives no temperature; 1 °C suits most apples'),
);

const usualHumidity = referenceFigure(
  'relative humidity',
  '%',
  93,
  commonPractice('Middle of the usual 90 to 96 % of cold stores for apples and pears'),
);

/** The planner's table in order of temperature, without rates that no logarithm can be taken of. */
function ownRespiration(own: VarietyOverride): Variety['respiration'] | undefined {
  const usable = (own.respiration ?? [])
    .filter(({ rate }) => rate.value > 0)
    .sort((a, b) => a.at.value - b.at.value)
    .filter(({ at }, index, points) => at.value !== points[index - 1]?.at.value);
  return usable.length > 0 ? usable : undefined;
}

/** The planner gives one share; the sources' range is kept in proportion around it. */
function aroundOwn(
  own: Figure<'1'>,
  published: Variety['respirationInStore'],
): Variety['respirationInStore'] {
  const scaled = (edge: Figure<'1'>) =>
    compute(edge.name, '1', 'min(1, own * edge / usual)', { own, edge, usual: published.expected }, (v) =>
      Math.min(1, (v.own * v.edge) / v.usual),
    );
  return { low: scaled(published.low), expected: own, high: scaled(published.high) };
}
