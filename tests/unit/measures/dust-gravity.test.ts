import { describe, expect, it } from 'vitest';
import { captureWhenFull } from '../../../src/measures/capture-when-full.ts';
import { dustCapture } from '../../../src/measures/dust-capture.ts';
import { BULK_SHARE, dustAnalysis } from '../../../src/measures/analyses/dust.ts';
import { dustConstants } from '../../../src/measures/analyses/dust-classes.ts';
import { createLedger, marchDust } from '../../../src/measures/analyses/dust-march.ts';
import { pocketVolume } from '../../../src/measures/analyses/dust-pockets.ts';
import { restShare, trayShare } from '../../../src/measures/analyses/dust-rest.ts';
import type { Down } from '../../../src/measures/analyses/dust-rest.ts';
import { fallSpeeds, settleDust } from '../../../src/measures/analyses/dust-settling.ts';
import { pocketFillTime } from '../../../src/measures/pocket-fill-time.ts';
import { pressureDrop } from '../../../src/measures/pressure-drop.ts';
import { purge } from '../../../src/measures/purge.ts';
import type { Channel, Pocket } from '../../../src/design/index.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief, faultsWith } from '../../support/briefs.ts';
import { aChannel, anSBend, samplesOf } from '../../support/plates.ts';

const AIR = { density_kg_per_m3: 1.2041, viscosity_Pa_s: 1.8134e-5, meanFreePath_m: 66e-9 };
const POCKET: Pocket = { at: 0.5, length_mm: 5, depth_mm: 2, width_deg: 120, side_deg: 0 };
const STREAM = { flow_m3_per_s: 1.5e-5, reynolds: 300, friction: 0.05 };
const ONE = [{ diameter_um: 20, massShare: 1 }];
const dust = dustConstants({ density_kg_per_m3: 2650, classes: ONE }, AIR);

/** The ledger of 20 um quartz after a channel, and the shares of its pockets at rest. */
function settled(channel: Channel, down: Down) {
  const samples = samplesOf(channel, 64);
  const ledger = createLedger(1);
  marchDust(samples, 0, STREAM, dust, 0.8, 1, ledger);
  const rest = new Float64Array(4);
  settleDust(samples, 0, STREAM, dust, fallSpeeds(dust, ONE, AIR), down, 0.8, ledger, rest);
  return { ledger, rest, samples };
}

describe('gravity on dust', () => {
  it('settles in a lying tube as 1 - exp(-4 v L/(pi D U))', () => {
    const { ledger, samples } = settled(aChannel(), [0, -1, 0]);
    // 20 um quartz falls at 32 mm/s (Stokes) less 3 % for Re_p .04 (Schiller & Naumann).
    const tau = (2650 * 20e-6 * 20e-6) / (18 * 1.8134e-5);
    const v = (tau * 9.80665) / (1 + 0.15 * 0.0425 ** 0.687);
    const U = STREAM.flow_m3_per_s / (samples.area_mm2[0] * 1e-6);
    const L = samples.length_mm[0] * 1e-3;
    const share = 1 - Math.exp((-4 * v * L) / (Math.PI * samples.bore_mm[0] * 1e-3 * U));
    expect(share).toBeGreaterThan(0.05);
    // What lies in so slow a stream stays; slip of so large a grain is below 1 %.
    expect(Math.abs(ledger.onWalls[0] / share - 1)).toBeLessThan(0.02);
  });

  it('settles nothing in a plumb channel', () => {
    const { ledger } = settled(aChannel(), [0, 0, 1]);
    expect(ledger.carried[0]).toBeCloseTo(1, 12);
  });

  it('loses no grain and finds none, whichever way is down', () => {
    const bend = anSBend({
      pockets: [POCKET, { ...POCKET, at: 0.75, side_deg: 180, lip_mm: 0.6 }],
    });
    for (const down of [
      [0, 0, 1],
      [0, 0, -1],
      [0, -1, 0],
      [0.6, 0, 0.8],
      [1, 0, 0],
    ] as const) {
      const { ledger } = settled(bend, down);
      let sum = ledger.carried[0] + ledger.skimming[0] + ledger.onWalls[0];
      sum += ledger.inPockets[0] + ledger.inPockets[1];
      expect(sum).toBeCloseTo(1, 12);
      for (const part of [...ledger.carried, ...ledger.onWalls, ...ledger.inPockets]) {
        expect(part).toBeGreaterThanOrEqual(-1e-15);
      }
    }
  });

  it('keeps a pocket full whose mouth looks up and empties one whose mouth looks down', () => {
    const samples = samplesOf(aChannel({ pockets: [POCKET] }), 64);
    const [x, y, z] = samples.first.subarray(3 * 32, 3 * 32 + 3);
    expect(restShare(samples, 0, 0, [x, y, z])).toBe(1);
    expect(restShare(samples, 0, 0, [-x, -y, -z])).toBe(0);
  });

  it('lets less lie in a pocket the more it leans, without a jump', () => {
    let before = 1;
    for (let lean = 0; lean <= Math.PI; lean += 0.01) {
      const share = trayShare(lean, 6, 2);
      expect(share).toBeLessThanOrEqual(before + 1e-12);
      expect(before - share).toBeLessThan(0.05);
      before = share;
    }
    expect(before).toBe(0);
  });

  it('lets a lip hold dust where air and dust go down together, not where air rises', () => {
    const share = (lip_mm: number, down: Down): number =>
      restShare(samplesOf(aChannel({ pockets: [{ ...POCKET, lip_mm }] }), 64), 0, 0, down);
    expect(share(1, [0, 0, 1])).toBeGreaterThan(share(0, [0, 0, 1]));
    expect(share(1, [0, 0, -1])).toBe(share(0, [0, 0, -1]));
  });

  it('settles no more into a groove too shallow to print than on the bare floor', () => {
    // Found by a search: pockets of 0.2 mm along the whole floor.
    const groove = { at: 0.5, length_mm: 14, depth_mm: 0.2, width_deg: 120, side_deg: -90 };
    const { ledger } = settled(aChannel({ pockets: [groove] }), [0, -1, 0]);
    expect(ledger.inPockets[0]).toBeLessThan(0.06 * ledger.onWalls[0]);
  });

  it('counts only where a brief says which way is down', () => {
    const channel = anSBend({ pockets: [POCKET] });
    const at = (down?: unknown): number =>
      dustCapture.evaluate(assess(channel, { brief: aBrief({ 'dust.down': down }) }));
    expect(at('againstAir')).not.toBe(at());
    expect(at([0, 0, -3])).toBe(at('againstAir'));
  });
});

const FLOW = { 'air.supply': { kind: 'flow', flow_m3_per_h: 0.12 } };

describe('a pocket with a lip', () => {
  it('keeps more dust, gives back less in reverse and costs pressure', () => {
    const bend = (lip_mm?: number) =>
      assess(anSBend({ pockets: [{ ...POCKET, lip_mm }] }), { brief: aBrief(FLOW), exact: true });
    const [plain, lipped] = [bend(), bend(0.8)];
    expect(dustCapture.evaluate(lipped)).toBeGreaterThan(dustCapture.evaluate(plain));
    expect(purge.evaluate(lipped)).toBeLessThan(purge.evaluate(plain));
    expect(pressureDrop.evaluate(lipped)).toBeGreaterThan(pressureDrop.evaluate(plain));
  });
});

describe('pocketFillTime_h', () => {
  const bend = anSBend({ pockets: [{ ...POCKET, at: 0.35 }] });
  const loaded = (load: number) =>
    assess(bend, { brief: aBrief({ ...FLOW, 'dust.load_mg_per_m3': load }), exact: true });

  it('is the room of the pocket over what it catches of the load', () => {
    const assessment = loaded(10);
    const { inPockets } = assessment.get(dustAnalysis);
    expect(inPockets).toBeGreaterThan(0.01);
    // Mass balance: 10 mg/m3 in .12 m3/h; grains of 2650 kg/m3 lie at .45 of that.
    const caught_g_per_h = 10e-3 * 0.12 * inPockets;
    const bore = bend.bore_mm[0];
    const room_g = pocketVolume(POCKET, bore / 2) * BULK_SHARE * 2650e-6;
    const time_h = pocketFillTime.evaluate(assessment);
    expect(Math.abs(time_h / (room_g / caught_g_per_h) - 1)).toBeLessThan(0.01);
  });

  it('halves with twice the load', () => {
    const ratio = pocketFillTime.evaluate(loaded(10)) / pocketFillTime.evaluate(loaded(20));
    expect(ratio).toBeCloseTo(2, 9);
  });

  it('does not praise a pocket that never fills because it catches next to nothing', () => {
    // Found by a search: pockets on the inner side of a bend, good for a million hours.
    const inner = anSBend({ pockets: [{ ...POCKET, at: 0.35, side_deg: 180, depth_mm: 0.9 }] });
    const idle = assess(inner, { brief: aBrief({ ...FLOW, 'dust.load_mg_per_m3': 10 }) });
    expect(idle.get(dustAnalysis).inPockets).toBeLessThan(0.005);
    expect(pocketFillTime.evaluate(idle)).toBeLessThan(pocketFillTime.evaluate(loaded(10)));
  });

  it('is 0 where no pocket catches anything, and not asked for where pockets may not be', () => {
    expect(pocketFillTime.evaluate(assess(aChannel(), { brief: aBrief(FLOW) }))).toBe(0);
    const none = aBrief({ 'routes.pockets': false, 'dust.load_mg_per_m3': 5 });
    expect(pocketFillTime.unavailable?.(none)).toContain('no pockets');
    expect(pocketFillTime.unavailable?.(aBrief())).toContain('on demand');
    expect(pocketFillTime.unavailable?.(aBrief({ 'dust.load_mg_per_m3': 5 }))).toBeNull();
  });

  it('tells what is kept afterwards: never more than before, and never less than nothing', () => {
    const assessment = loaded(10);
    const full = captureWhenFull.evaluate(assessment);
    expect(full).toBeGreaterThanOrEqual(0);
    expect(full).toBeLessThan(dustCapture.evaluate(assessment));
  });
});

describe('dust per size class', () => {
  it('adds up to the whole, in the plate and in its pockets', () => {
    const report = assess(anSBend({ pockets: [POCKET] }), { brief: aBrief(FLOW), exact: true }).get(
      dustAnalysis,
    );
    const sum = (of: Float64Array): number =>
      report.classes.reduce((all, { massShare }, i) => all + massShare * of[i], 0);
    expect(report.classes).toHaveLength(11);
    expect(sum(report.captureOfClass)).toBeCloseTo(report.capture, 9);
    expect(sum(report.inPocketsOfClass)).toBeCloseTo(report.inPockets, 9);
    expect(report.pocketShare[0]).toBeCloseTo(report.inPockets, 12);
  });
});

describe('faults of dust and walls in a brief', () => {
  it('names a way down without direction and lips without pockets', () => {
    expect(faultsWith({ 'dust.down': [0, 0, 0] })[0].path).toBe('dust.down');
    const lips = faultsWith({ 'routes.pockets': false, 'routes.pocketLips': true });
    expect(lips.map(({ path }) => path)).toEqual(['routes.pocketLips']);
    const teeth = faultsWith({ 'routes.teeth': true, 'routes.sections': ['slot'] });
    expect(teeth.map(({ path }) => path)).toEqual(['routes.teeth']);
    expect(faultsWith({ 'dust.down': 'sideways' })[0].path).toBe('dust.down');
  });
});
