import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { fruitData } from '../../src/fruit/data';
import { formatDay, formatWeek, weekOfDay } from '../../src/plan/dates';
import type { Fill, Lot, Plan } from '../../src/plan/model';
import { readPlan } from '../../src/plan/read';
import type { CheckReport } from '../../src/report/schemas';
import { roomCapacity } from '../../src/room/capacity';
import { lotwright } from '../cli/in-process';
import { fullSeasonPromises } from '../generate/promises-text';
import { FULL_SEASON, generateSeason } from '../generate/season';
import { sampleFiles } from './sample';

const samples = ['first-season', 'full-season', 'us-units'];

describe.each(samples)('the sample plan %s', (name) => {
  const files = sampleFiles(name);
  const plan = readPlan(files);

  it('reads without a problem', () => {
    expect(plan.problems.map(({ code, message, at }) => `${at.file}: ${code}: ${message}`)).toEqual([]);
  });

  it('names only what it defines or what is built in', () => {
    const fruit = fruitData(plan);
    const missing = plan.references.filter(({ section, id }) => !isDefined(plan, fruit, section, id));
    expect(missing.map(({ section, id }) => `${section} ${id}`)).toEqual([]);
  });

  it('keeps each room within its places and fills it at least nine tenths', () => {
    for (const fill of plan.fills.values()) {
      const places = placesOf(plan, fill);
      expect(binsOf(fill), fill.id).toBeLessThanOrEqual(places);
      expect(binsOf(fill), fill.id).toBeGreaterThanOrEqual(0.9 * places);
    }
  });

  it('gives every bin of every lot a place, once', () => {
    for (const lot of plan.lots.values()) {
      const stored = [...plan.fills.values()]
        .flatMap((fill) => fill.lots.filter((one) => one.lot.value === lot.id))
        .reduce((sum, one) => sum + one.bins.value, 0);
      expect(stored, lot.id).toBe(binsToCount(lot));
    }
  });

  it('puts lots into a room while it is being filled, and seals it one to nine days later', () => {
    for (const fill of plan.fills.values()) {
      const [first, last, sealed] = [fill.firstBin?.value, fill.lastBin?.value, fill.sealed?.value];
      if (first === undefined || last === undefined) throw new Error(`${fill.id} has no dates`);
      for (const { lot } of fill.lots) {
        const picked = plan.lots.get(lot.value)?.picked?.value;
        if (picked === undefined) throw new Error(`${lot.value} has no picking dates`);
        expect(picked.first, `${fill.id} ${lot.value} ${formatDay(picked.first)}`).toBeGreaterThanOrEqual(
          first,
        );
        expect(picked.last, `${fill.id} ${lot.value} ${formatDay(picked.last)}`).toBeLessThanOrEqual(last);
      }
      // Nine days where the fruit is conditioned first.
      if (sealed !== undefined) {
        expect(sealed - last).toBeGreaterThanOrEqual(1);
        expect(sealed - last).toBeLessThanOrEqual(9);
      }
    }
  });

  it('keeps every variety in a regime that suits it', () => {
    const fruit = fruitData(plan);
    for (const fill of plan.fills.values()) {
      const regime = fruit.regime(fill.regime?.value ?? '');
      for (const { lot } of fill.lots) {
        const variety = fruit.variety(plan.lots.get(lot.value)?.variety?.value ?? '');
        expect(regime?.varieties, `${fill.id} ${lot.value}`).toContain(variety?.name);
      }
    }
  });

  it('computes to a season without an error, and a schedule that delivers nearly all', () => {
    const season = computeSeason(plan, { release: 'quick', seed: 1, courses: true });
    const errors = findingsOf(season).filter((finding) => finding.severity === 'error');
    expect(errors.map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
    const { problem, result } = season.release ?? {};
    const wanted = problem?.demands.flatMap((demand) => demand.cartons).reduce((a, b) => a + b, 0) ?? 0;
    const sold = result?.schedule.sold.flat().reduce((a, b) => a + b, 0) ?? 0;
    expect(sold / wanted).toBeGreaterThan(0.97);
    expect(result?.schedule.opens).not.toContain(null);
  });

  it('asks of its plant what it can give, or a little more in a week', () => {
    const { plant } = computeSeason(plan, { release: 'none' });
    for (const { scrubber, peak } of plant?.scrubbers ?? []) {
      expect(peak?.share?.value, scrubber.id).toBeGreaterThan(50);
      expect(peak?.share?.value, scrubber.id).toBeLessThan(105);
    }
    for (const { group, weeks } of plant?.refrigeration ?? []) {
      const highest = Math.max(...weeks.map(({ share }) => share?.value ?? 0));
      expect(highest, group.id).toBeGreaterThan(50);
      expect(highest, group.id).toBeLessThan(105);
    }
    expect(plant?.scrubbers.length).toBe(plan.scrubbers.size);
  });

  it('asks for about as many cartons as the rooms can give', () => {
    for (const [product, { supply, demand }] of balance(plan)) {
      // Fruit loses some of its packout in store; a pack class that nobody wants is processed.
      if (demand === 0) continue;
      expect(supply / demand, product).toBeGreaterThan(0.97);
      expect(supply / demand, product).toBeLessThan(1.2);
    }
  });
});

describe('what is read in the rooms of the first season', () => {
  it('are its analyser that was out for four days, and the oxygen that creeps up in a room', async () => {
    const { out } = await lotwright(['check', 'sample-plans/first-season', '--format', 'json']);
    const report: CheckReport = JSON.parse(out);
    const read = report.findings.filter(({ family }) => family === 'readings');
    expect(read.map(({ severity, fingerprint }) => `${severity} ${fingerprint}`)).toEqual([
      'notice record-gap:R2-gala/2026-10-16',
      'warning oxygen-high:R3-golden/oxygen',
    ]);
  });
});

describe('the full-size sample', () => {
  const plan = readPlan(sampleFiles('full-season'));

  it('is a whole store over a whole season', () => {
    const { season } = plan;
    if (!season?.starts || !season.ends) throw new Error('no season');
    expect(plan.rooms.size).toBe(48);
    expect(plan.fills.size).toBe(48);
    expect(plan.lots.size).toBeGreaterThan(320);
    expect(new Set([...plan.lots.values()].map((lot) => lot.variety?.value)).size).toBe(9);
    expect(weekOfDay(season.ends.value) - weekOfDay(season.starts.value) + 1).toBe(45);
    expect(formatWeek(weekOfDay(season.starts.value))).toBe('2026-W35');
  });

  it('stands in the middle of the harvest: early lots received, late ones estimated', () => {
    const received = [...plan.lots.values()].filter((lot) => lot.receivedBins !== undefined);
    expect(received.length / plan.lots.size).toBeGreaterThan(0.3);
    expect(received.length / plan.lots.size).toBeLessThan(0.7);
    const lastReceived = Math.max(...received.map((lot) => lot.picked?.value.last ?? 0));
    for (const lot of plan.lots.values()) {
      if (lot.receivedBins === undefined) expect(lot.picked?.value.last).toBeGreaterThan(lastReceived);
      expect(lot.maturity?.tested?.value ?? 0).toBeLessThanOrEqual(lastReceived);
    }
  });

  it('is what the generator writes', () => {
    const files = [...generateSeason(FULL_SEASON), fullSeasonPromises];
    const generated = files.map((file) => [file.path, file.text]);
    const committed = sampleFiles('full-season').map((file) => [file.path, file.text]);
    expect(Object.fromEntries(committed)).toEqual(Object.fromEntries(generated));
  });
});

function isDefined(plan: Plan, fruit: ReturnType<typeof fruitData>, section: string, id: string): boolean {
  switch (section) {
    case 'varieties':
      return fruit.variety(id) !== undefined;
    case 'regimes':
      return fruit.regime(id) !== undefined;
    case 'bins':
      return plan.binTypes.has(id);
    case 'nitrogen':
      return plan.nitrogenSources.has(id);
    case 'refrigeration':
      return plan.refrigerationGroups.has(id);
    case 'rooms':
      return plan.rooms.has(id);
    case 'scrubbers':
      return plan.scrubbers.has(id);
    case 'lots':
      return plan.lots.has(id);
    case 'fills':
      return plan.fills.has(id);
    default:
      return false;
  }
}

function placesOf(plan: Plan, fill: Fill): number {
  const room = plan.rooms.get(fill.room?.value ?? '');
  const capacity = room && roomCapacity(room, plan.binTypes.get(room.binType?.value ?? ''));
  const [places, byGeometry] = [capacity?.places?.value ?? 0, capacity?.placesByGeometry?.value ?? 0];
  // Where places are written as counted, a few are lost at the door and the cooler, and no more than a few.
  expect(places / byGeometry, fill.id).toBeGreaterThan(0.97);
  expect(places / byGeometry, fill.id).toBeLessThanOrEqual(1);
  return places;
}

function binsOf(fill: Fill): number {
  return fill.lots.reduce((sum, lot) => sum + lot.bins.value, 0);
}

function binsToCount(lot: Lot): number | undefined {
  return (lot.receivedBins ?? lot.expectedBins)?.value;
}

/** Cartons by variety and class: what the rooms hold by the packout at harvest, and what is wanted over the season. */
function balance(plan: Plan): Map<string, { supply: number; demand: number }> {
  const totals = new Map<string, { supply: number; demand: number }>();
  const at = (variety = '', packClass = '') => {
    const key = `${variety} ${packClass}`;
    const total = totals.get(key) ?? { supply: 0, demand: 0 };
    totals.set(key, total);
    return total;
  };
  const carton = plan.season?.cartonMass?.value ?? Number.NaN;
  for (const fill of plan.fills.values()) {
    const room = plan.rooms.get(fill.room?.value ?? '');
    const fruitInBin = plan.binTypes.get(room?.binType?.value ?? '')?.netFruit?.value ?? Number.NaN;
    for (const { lot, bins } of fill.lots) {
      const variety = plan.lots.get(lot.value)?.variety?.value;
      for (const [packClass, share] of plan.packing?.packout.get(variety ?? '')?.shares ?? []) {
        at(variety, packClass).supply += (bins.value * fruitInBin * share.value) / 100 / carton;
      }
    }
  }
  for (const demand of plan.demand.values()) {
    const weeks = demand.weeks?.value ?? { first: 0, last: -1 };
    for (let week = weeks.first; week <= weeks.last; week += 1) {
      at(demand.variety?.value, demand.packClass?.value).demand +=
        (demand.byWeek.get(week) ?? demand.cartons)?.value ?? 0;
    }
  }
  return totals;
}
