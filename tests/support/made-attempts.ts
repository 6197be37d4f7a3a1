import { randomUUID } from 'node:crypto';
import type { AttemptResult, HandCommand, Scenario } from '../../physics/index.ts';
import shipped from '../../scenarios/adult-baseline.json' with { type: 'json' };
import type { Person } from '../../src-main/ipc/contract.ts';

/** Made-up attempts with the size and shape of real ones, for tests of what keeps them. Nothing in them was computed by the model. */

const { $schema: _forEditors, ...plain } = shipped;
export const scenario = plain as unknown as Scenario;

export const madePerson = (name = 'Ada Example'): Person => ({ id: randomUUID(), name, colour: 'teal' });

/** A command that can be told from others by its number. */
export const numberedCommand = (n: number): HandCommand => ({
  x_mm: n,
  y_mm: 0,
  lift_mm: 0.5,
  jaws: 0,
  instrument: 'forceps',
  incision: 0,
});

/** The numbered commands of a stretch of steps. */
export const numberedCommands = (from: number, to: number): HandCommand[] =>
  Array.from({ length: to - from }, (_, k) => numberedCommand(from + k));

/** A small generator of its own: the same seed gives the same attempt. */
function numbers(seed: number): () => number {
  let state = (seed * 2654435761 + 1) >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const rounded = (value: number, decimals: number): number => Math.round(value * 10 ** decimals) / 10 ** decimals;

/** A hand that goes round with tremor, rounded as the page rounds. */
export function madeCommands(count: number, seed = 1): HandCommand[] {
  const next = numbers(seed);
  let angle = 0;
  return Array.from({ length: count }, (_, step) => {
    angle += 0.004 * next();
    const radius = 2.5 + 0.1 * Math.sin(angle * 7) + 0.02 * (next() - 0.5);
    return {
      x_mm: rounded(radius * Math.cos(angle), 4),
      y_mm: rounded(radius * Math.sin(angle), 4),
      lift_mm: rounded(0.3 + 0.02 * next(), 4),
      jaws: step % 400 < 300 ? 1 : rounded(next(), 3),
      instrument: 'forceps',
      incision: Math.floor(step / 1500) % 2,
    };
  });
}

const circle = (points: number, radius: number, next: () => number): [number, number][] =>
  Array.from({ length: points }, (_, k) => {
    const angle = (2 * Math.PI * k) / points;
    const r = radius + 0.05 * next();
    return [r * Math.cos(angle), r * Math.sin(angle)];
  });

/** A result that fits attempts of `scenario` with so many commands. */
export function madeResult(steps: number, seed = 1): AttemptResult {
  const next = numbers(seed + 77);
  const radius = 2.4 + 0.3 * next();
  return {
    scenario: scenario.id,
    hand: 'person',
    seed: 1,
    modelVersion: 'test',
    ended: 'complete',
    opening: {
      equivalentDiameter_mm: 2 * radius,
      largestDiameter_mm: 2 * radius + 0.2,
      largestDiameterAxis_deg: 180 * next(),
      smallestDiameter_mm: 2 * radius - 0.2,
      smallestDiameterAxis_deg: 180 * next(),
      area_mm2: Math.PI * radius ** 2,
      perimeter_mm: 2 * Math.PI * radius,
      centroidDistance_mm: next() / 4,
      centroidDirection_clock_h: 12 * next(),
      circularity: 0.9 + next() / 10,
      axisRatio: 0.9 + next() / 10,
      rmsDeviation_mm: next() / 5,
      peakDeviation_mm: next() / 2,
      opticOverlapSmallest_mm: next() / 3,
      opticUncovered_clock_h: [],
      largestKink_deg: 30 * next(),
      radialNicks: 0,
      longestNick_mm: 0,
    },
    work: {
      time_s: steps / 60,
      grasps: 5,
      arcPerGrasp_deg: 72,
      tornLength_mm: 15.7 * next(),
      gripToTipMean_mm: next(),
      peakForce_mN: 20 * next(),
      rmsForce_mN: 5 * next(),
      handPath_mm: 60 * next(),
      handPathOverTorn: 4 * next(),
      shearShare: 0.7,
      stretchShare: 0.3,
      tensionWithoutTear_s: next(),
      refills: 0,
      fluidLost_share: next() / 10,
      peakSideLoad_mN: next(),
      nearRunOuts: 0,
      rescues: 0,
    },
    graded: ['equivalentDiameter_mm', 'centroidDistance_mm', 'circularity'].map((metric) => ({
      metric,
      value: next(),
      atLeast: 0,
      met: true,
      reason: 'The value lies inside the limits that the scenario sets.',
    })),
    passed: seed % 3 !== 0,
    tears: [{ reference_mm: circle(320, radius, next), relaxed_mm: circle(320, radius, next) }],
    outline_mm: circle(320, radius, next),
    events: Array.from({ length: 24 }, (_, k) => ({ step: 80 * k, time_s: (80 * k) / 60, kind: 'grasp', clock_h: 3 })),
    steps,
    digest: (0x10000000 + seed).toString(16).padStart(16, '0'),
    energyMismatch: next() / 100,
    caution: 'Teaching model, not for planning surgery. Local protocol and supervised practice come first.',
  };
}
