import { hypot } from '../core/elementary/hypot.ts';
import type { WorkRecorder, WorkSample } from '../opening/metrics.ts';

export type { TornIncrement, WorkRecorder, WorkSample } from '../opening/metrics.ts';

/** Half the tear resistance at the tip: from here a held pull counts as tension (assumed). */
const TENSION_RATIO = 0.5;

/**
 * Collects the metrics of the work, fed once per world step.
 *
 * The hand's path is that of the asked tip in space. Force and distance from grip to tip are taken over the time in which the forceps
 * hold tissue. Shear and stretch shares are of the length torn under a pull; a length torn without any pull counts in
 * neither. A ratio whose denominator is still 0 is given as 0.
 */
export function createWorkRecorder(): WorkRecorder {
  const sum = {
    time_s: 0,
    grasps: 0,
    arc_deg: 0,
    torn_mm: 0,
    path_mm: 0,
    grip_s: 0,
    forceSquared: 0,
    near_s: 0,
    nearTime: 0,
    shear_mm: 0,
    stretch_mm: 0,
    tension_s: 0,
    refills: 0,
    nearRunOuts: 0,
    rescues: 0,
    fluidLost: 0,
    peakForce: 0,
    peakSideLoad: 0,
  };
  let last: WorkSample | null = null;

  function recordForce(sample: WorkSample) {
    sum.peakSideLoad = Math.max(sum.peakSideLoad, sample.sideLoad_mN);
    if (!sample.gripping) return;
    const force = hypot(...sample.force_mN);
    sum.grip_s += sample.dt_s;
    sum.forceSquared += force * force * sample.dt_s;
    sum.peakForce = Math.max(sum.peakForce, force);
    if (sample.gripToTip_mm === null) return;
    sum.near_s += sample.dt_s;
    sum.nearTime += sample.gripToTip_mm * sample.dt_s;
  }

  function recordTear(sample: WorkSample) {
    for (const { length_mm, arc_deg, shear_mN, stretch_mN } of sample.torn) {
      sum.torn_mm += length_mm;
      sum.arc_deg += arc_deg;
      if (shear_mN === 0 && stretch_mN === 0) continue;
      if (Math.abs(shear_mN) >= Math.abs(stretch_mN)) sum.shear_mm += length_mm;
      else sum.stretch_mm += length_mm;
    }
    if (sample.torn.length === 0 && sample.drivingRatio > TENSION_RATIO) sum.tension_s += sample.dt_s;
  }

  function recordEvents(sample: WorkSample) {
    for (const { kind } of sample.events) {
      if (kind === 'grasp') sum.grasps += 1;
      if (kind === 'refill') sum.refills += 1;
      if (kind === 'near-run-out') sum.nearRunOuts += 1;
      if (kind === 'rescued') sum.rescues += 1;
    }
  }

  return {
    record(sample) {
      const [x, y, z] = sample.asked_mm;
      const [fromX, fromY, fromZ] = last?.asked_mm ?? sample.asked_mm;
      sum.path_mm += hypot(x - fromX, y - fromY, z - fromZ);
      sum.time_s = sample.time_s;
      sum.fluidLost = sample.fluidLost_share;
      recordForce(sample);
      recordTear(sample);
      recordEvents(sample);
      last = sample;
    },
    result: () => ({
      time_s: sum.time_s,
      grasps: sum.grasps,
      arcPerGrasp_deg: ratio(sum.arc_deg, sum.grasps),
      tornLength_mm: sum.torn_mm,
      gripToTipMean_mm: ratio(sum.nearTime, sum.near_s),
      peakForce_mN: sum.peakForce,
      rmsForce_mN: Math.sqrt(ratio(sum.forceSquared, sum.grip_s)),
      handPath_mm: sum.path_mm,
      handPathOverTorn: ratio(sum.path_mm, sum.torn_mm),
      shearShare: ratio(sum.shear_mm, sum.shear_mm + sum.stretch_mm),
      stretchShare: ratio(sum.stretch_mm, sum.shear_mm + sum.stretch_mm),
      tensionWithoutTear_s: sum.tension_s,
      refills: sum.refills,
      fluidLost_share: sum.fluidLost,
      peakSideLoad_mN: sum.peakSideLoad,
      nearRunOuts: sum.nearRunOuts,
      rescues: sum.rescues,
    }),
  };
}

const ratio = (part: number, whole: number) => (whole > 0 ? part / whole : 0);
