/** The cuts a scenario begins with, as tears in the unloaded disc. */
import { cos, sin } from '../core/elementary/circular.ts';
import { exp } from '../core/elementary/exponential.ts';
import { hypot } from '../core/elementary/hypot.ts';
import { asin, atan2 } from '../core/elementary/inverse-circular.ts';
import type { MeshSizes } from '../mesh/sizes.ts';
import type { TearLine } from '../mesh/tear-line.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { clockAngle, type EyeFrame } from './frame.ts';

export function startingTears(scenario: Scenario, frame: EyeFrame, sizes: MeshSizes): TearLine[] {
  const { start } = scenario;
  if (start.kind === 'flap') return [preparedFlap(start, frame, sizes)];
  if (start.kind === 'two-nicks') return twoNicks(start, frame, sizes);
  return [];
}

/** Radius of the bend from the radial cut into the arc, as a share of the arc's radius. Assumed, for a plausible flap. */
const BEND_SHARE = 0.2;

/** A radial cut that bends into an arc. The cut's inner end is blunt; the arc's end is the live tip. */
function preparedFlap(start: Scenario['start'] & { kind: 'flap' }, frame: EyeFrame, sizes: MeshSizes): TearLine {
  const scale = 1 / frame.baseStretch;
  const radius = start.radius_mm * scale;
  const inner = start.innerRadius_mm * scale;
  const outward = (start.outward_mm ?? 0) * scale;
  const sense = Math.sign(start.arc_deg) || 1;
  const angle = clockAngle(start.clock_h);
  const bend = Math.min(BEND_SHARE * radius, radius - inner);
  const total = (Math.abs(start.arc_deg) * Math.PI) / 180;
  // path by arc length: straight, quarter bend, circle about the centre
  const straight = radius - bend - inner;
  const bendLength = (Math.PI / 2) * bend;
  const bendAngle = asin(Math.min(1, bend / (radius - bend)));
  const arcLength = Math.max(sizes.tip_mm * 6, (total - bendAngle) * radius);
  const at = (s: number): [number, number] => {
    if (s <= straight) return polar(inner + s, 0);
    if (s <= straight + bendLength) {
      const u = (s - straight) / bend;
      const along = radius - bend + bend * sin(u);
      const across = bend * (1 - cos(u));
      return [along, across];
    }
    const end = at(straight + bendLength);
    const from = atan2(end[1], end[0]);
    const r0 = hypot(end[0], end[1]);
    const t = s - straight - bendLength;
    // the bend ends a little outside of the circle; the arc settles onto it within the length of the bend
    const settle = exp(-t / bend);
    return polar(radius + (r0 - radius) * settle + outward * runShare((arcLength - t) / radius), from + t / radius);
  };
  const points = sample(straight + bendLength + arcLength, sizes, at).flatMap(([x, y]) => {
    const c = cos(angle);
    const s = sin(angle);
    return [c * x - s * sense * y, s * x + c * sense * y];
  });
  return { id: 0, points: translate(points, frame), startKind: 'blunt', endKind: 'live' };
}

/** Arc over which a tear that has begun to run leaves its circle. Assumed: the last clock hour and a half. */
const RUN_ARC_rad = Math.PI / 4;

/** Share of the way outward at an angle before the end: nothing up to the run, then as its square, so that the line has no kink. */
function runShare(left_rad: number): number {
  const into = Math.max(0, 1 - left_rad / RUN_ARC_rad);
  return into * into;
}

const polar = (r: number, a: number): [number, number] => [r * cos(a), r * sin(a)];

/** Vertices along a path: at the tip's spacing near its end, at the faces' spacing before. */
function sample(length: number, sizes: MeshSizes, at: (s: number) => [number, number]): [number, number][] {
  const stations: number[] = [];
  let s = length;
  while (s > 0.4 * sizes.face_mm) {
    stations.push(s);
    s -= length - s < 7.5 * sizes.tip_mm ? sizes.tip_mm : sizes.face_mm;
  }
  stations.push(0);
  return stations.reverse().map(at);
}

/** From the reference centre's frame to the disc's own, whose origin is the lens centre. */
function translate(points: number[], frame: EyeFrame): number[] {
  const scale = 1 / frame.baseStretch;
  const dx = (frame.targetCentre_mm[0] - frame.lensCentre_mm[0]) * scale;
  const dy = (frame.targetCentre_mm[1] - frame.lensCentre_mm[1]) * scale;
  return points.map((v, k) => v + (k % 2 === 0 ? dx : dy));
}

/** Two short tangential nicks opposite each other, each with two live ends. */
function twoNicks(start: Scenario['start'] & { kind: 'two-nicks' }, frame: EyeFrame, sizes: MeshSizes): TearLine[] {
  const scale = 1 / frame.baseStretch;
  const angle = clockAngle(start.axisClock_h);
  const half = (start.nick_mm / 2) * scale;
  const count = Math.max(4, Math.round((2 * half) / sizes.tip_mm));
  return [0, 1].map((id) => {
    const a = angle + id * Math.PI;
    const r = (start.distance_mm / 2) * scale;
    const points: number[] = [];
    for (let k = 0; k <= count; k++) {
      const t = -half + (2 * half * k) / count;
      points.push(r * cos(a) - t * sin(a), r * sin(a) + t * cos(a));
    }
    return { id, points: translate(points, frame), startKind: 'live', endKind: 'live' };
  });
}
