/** Records, step by step, what the costly moments of an attempt are found in. Reads the world, never changes it. */
import { exp } from '../core/elementary/exponential.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { leakTime_s } from '../eye/fluid.ts';
import type { TearLine } from '../mesh/tear-line.ts';
import { drivingRatio } from '../world/advance.ts';
import { STEP_S } from '../world/contract.ts';
import { clockOf } from '../world/frame.ts';
import { gripForce } from '../world/grip.ts';
import type { World } from '../world/state.ts';
import type { MomentSample, TornEnd } from './costly-moments.ts';

type Place = readonly [number, number];

export interface MomentRecorder {
  /** To be called after every stepWorld. */
  record(): void;
  readonly samples: readonly MomentSample[];
}

/** Ends of all tears in the unloaded disc, by a number that stays theirs. */
function endsOf(tears: readonly TearLine[]): Map<number, Place> {
  const ends = new Map<number, Place>();
  for (const { id, points } of tears) {
    ends.set(2 * id, [points[0], points[1]]);
    ends.set(2 * id + 1, [points[points.length - 2], points[points.length - 1]]);
  }
  return ends;
}

/** Place in the living eye before any cut, from the target's centre, mm. */
function fromTarget({ frame }: World, [x, y]: Place): Place {
  const { baseStretch, lensCentre_mm, targetCentre_mm } = frame;
  return [
    lensCentre_mm[0] + baseStretch * x - targetCentre_mm[0],
    lensCentre_mm[1] + baseStretch * y - targetCentre_mm[1],
  ];
}

function tornEnd(world: World, end: number, before: Place, after: Place): TornEnd {
  const line_mm = world.frame.geometry.target.lineDiameter_mm / 2;
  const [a, b] = [fromTarget(world, before), fromTarget(world, after)];
  return {
    end,
    length_mm: hypot(b[0] - a[0], b[1] - a[1]),
    offLineBefore_mm: hypot(...a) - line_mm,
    offLineAfter_mm: hypot(...b) - line_mm,
    clock_h: clockOf(b[0], b[1]),
  };
}

/** Mean pull along and across the tear over what was torn in this step, by length. */
function meanPull({ tornNow }: World): { readonly shear_mN: number; readonly stretch_mN: number } {
  const length_mm = tornNow.reduce((sum, one) => sum + one.length_mm, 0);
  if (!(length_mm > 0)) return { shear_mN: 0, stretch_mN: 0 };
  const mean = (key: 'shear_mN' | 'stretch_mN') =>
    tornNow.reduce((sum, one) => sum + one[key] * one.length_mm, 0) / length_mm;
  return { shear_mN: mean('shear_mN'), stretch_mN: mean('stretch_mN') };
}

/** A recorder for a world that has not been stepped yet, or from now on for one that has. */
export function createMomentRecorder(world: World): MomentRecorder {
  const samples: MomentSample[] = [];
  let ends = endsOf(world.tears);
  let fill_share = world.chamber.fill_share;

  /** Ends that the law has moved; what the needle cut moves them too, but tears nothing. */
  function torn(now: Map<number, Place>): TornEnd[] {
    if (world.tornNow.length === 0) return [];
    return [...now].flatMap(([end, after]) => {
      const before = ends.get(end);
      const still = before === undefined || (before[0] === after[0] && before[1] === after[1]);
      return still ? [] : [tornEnd(world, end, before, after)];
    });
  }

  return {
    samples,
    record() {
      const now = endsOf(world.tears);
      const { sideLoad_mN } = world.pose;
      const { fluid } = world.chamber;
      const left = (load_mN: number) => exp(-STEP_S / leakTime_s(fluid, true, load_mN));
      samples.push({
        time_s: world.step * STEP_S,
        torn: torn(now),
        ...meanPull(world),
        drivingRatio: world.tips.reduce((most, tip) => Math.max(most, drivingRatio(world, tip)), 0),
        gripping: world.grip !== null,
        force_mN: hypot(...gripForce(world)),
        sideLoad_mN,
        lostByLoad_share: fill_share * (left(0) - left(sideLoad_mN)),
      });
      ends = now;
      fill_share = world.chamber.fill_share;
    },
  };
}
