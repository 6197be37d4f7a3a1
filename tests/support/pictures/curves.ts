/** Pictures of curves: the polar curve of a tip, the tip force against the mesh, pull angle and holding limit by age. */
import {
  digestWorld,
  polarDrivingForce,
  SWEEP_MEASURES,
  type SweepMeasure,
  sweepCell,
} from '../../../physics/index.ts';
import { tipFrame } from '../../../physics/mesh/tear-line.ts';
import { blendDirection } from '../../../physics/tear/direction.ts';
import { hoopKink } from '../../../physics/tear/hoop-kink.ts';
import { arcSlitK, centreSlitFactor, edgeSlitFactor, tipForce } from '../../../physics/verify/reference/slits.ts';
import { arcSlitJ, edgeSlitJ, slitStripJ } from '../../../physics/verify/slit-checks.ts';
import { arrow, dot, line, type Picture, type Place, round, text } from './svg.ts';
import { worldAfter } from './torn.ts';

const DEG = 180 / Math.PI;
const WIDTH = 480;

/** A steady patch: the world's jaws, rim and pressure held while each extension comes to rest, s. */
const AT_REST_s = 10;

export function polar(name: string, words: string, scenario: string, hand: string, steps: number): Picture {
  const world = worldAfter(scenario, hand, steps);
  const [tip] = world.tips;
  const curve = polarDrivingForce(world, tip.id, { time_s: AT_REST_s });
  if (curve === null) throw new Error('no polar curve at this tip');
  const { tx, ty, x, y } = tipFrame(tip.ref);
  const { fit } = blendDirection({
    membrane: world.body.membrane,
    x: world.x,
    tip: { x, y, tx, ty },
    force: tip.force,
    edge_mm: world.sizes.tip_mm,
  });
  if (fit === null) throw new Error('no ring could be fitted at this tip');
  const hoop_deg = hoopKink(fit.KI, fit.KII).turn_deg;
  const middle: Place = [WIDTH / 2, 270];
  const perMillinewton = 190 / Math.max(curve.tearResistance_mN, ...curve.drivingForce_mN);
  const at = (turn_deg: number, force: number): Place => [
    middle[0] - perMillinewton * force * Math.sin(turn_deg / DEG),
    middle[1] - perMillinewton * force * Math.cos(turn_deg / DEG),
  ];
  const places = curve.turn_deg.map((turn, k) => at(turn, Math.max(0, curve.drivingForce_mN[k])));
  const far = curve.tearResistance_mN;
  return {
    name,
    title: words,
    width: WIDTH,
    height: 560,
    numbers: {
      scenario,
      hand,
      steps,
      digest: digestWorld(world),
      turn_deg: curve.turn_deg,
      drivingForce_mN: curve.drivingForce_mN.map((force) => round(force)),
      bestTurn_deg: round(curve.best.turn_deg, 1),
      vectorTurn_deg: round(curve.vector.turn_deg, 1),
      hoopTurn_deg: round(hoop_deg, 1),
      ringMisfit: round(fit.misfit, 3),
      tearResistance_mN: round(curve.tearResistance_mN),
    },
    body: [
      dot(middle, perMillinewton * far, 'fill="none" stroke="#666" stroke-dasharray="7 5"'),
      line([middle, at(0, far * 1.12)], 'stroke="#bbb"'),
      line(places, 'stroke="#1b4470" stroke-width="2"'),
      ...places.map((place) => dot(place, 3, 'fill="#1b4470"')),
      arrow(middle, at(curve.vector.turn_deg, far * 1.1), '#1b9e3b'),
      arrow(middle, at(hoop_deg, far * 1.1), '#d3261e'),
      arrow(middle, at(curve.best.turn_deg, curve.best.drivingForce_mN), '#1b4470', 4),
      text(
        12,
        470,
        `blue: energy set free by the next element each way, best ${round(curve.best.drivingForce_mN, 1)} mN at ${round(curve.best.turn_deg, 1)} deg`,
        'fill="#1b4470"',
      ),
      text(
        12,
        487,
        `green: direction of the vector rule, ${round(curve.vector.turn_deg, 1)} deg (steers every attempt)`,
        'fill="#1b7f3b"',
      ),
      text(
        12,
        504,
        `red: direction of the hoop rule, ${round(hoop_deg, 1)} deg (ring misfit ${round(fit.misfit)})`,
        'fill="#b3261e"',
      ),
      text(12, 521, `dashes: tear resistance ${round(far, 1)} mN; tangent straight up, left is inward`),
    ].join('\n'),
  };
}

interface Axes {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
}

const PLOT = { left: 60, top: 50, width: 390, height: 260 };

const placing =
  ({ x, y }: Axes) =>
  (a: number, b: number): Place => [
    PLOT.left + (PLOT.width * (a - x[0])) / (x[1] - x[0]),
    PLOT.top + PLOT.height * (1 - (b - y[0]) / (y[1] - y[0])),
  ];

function frame(axes: Axes, xs: readonly number[], ys: readonly number[], named: (x: number) => string): string {
  const at = placing(axes);
  return [
    ...ys.flatMap((y) => [
      line([at(axes.x[0], y), at(axes.x[1], y)], 'stroke="#ddd"'),
      text(PLOT.left - 8, at(axes.x[0], y)[1] + 4, String(y), 'text-anchor="end"'),
    ]),
    ...xs.map((x) => text(at(x, 0)[0], PLOT.top + PLOT.height + 18, named(x), 'text-anchor="middle"')),
  ].join('\n');
}

/** How fine against the usual mesh. */
const FINER = [0.5, 1, 2];

export function convergence(name: string): Picture {
  const rows = [
    {
      what: 'arc slit, 70 degrees',
      colour: '#1b4470',
      at: (finer: number) => arcSlitJ(70, finer)[0],
      reference: tipForce(arcSlitK(1, 1, 70), 1).J1,
    },
    {
      what: 'centre slit',
      colour: '#1b9e3b',
      at: (finer: number) => slitStripJ(2, 'centre', 1, finer),
      reference: Math.PI * centreSlitFactor(0.5) ** 2,
    },
    {
      what: 'edge slit',
      colour: '#b3261e',
      at: (finer: number) => edgeSlitJ(2, finer),
      reference: Math.PI * edgeSlitFactor(0.5) ** 2,
    },
  ].map(({ at, reference, ...rest }) => ({ ...rest, shares: FINER.map((finer) => round(at(finer) / reference, 4)) }));
  const axes: Axes = { x: [0, 2.1], y: [0.9, 1.01] };
  const at = placing(axes);
  return {
    name,
    title: 'Tip force over its closed form, by size of the mesh',
    width: WIDTH,
    height: 430,
    numbers: { sizes: FINER.map((finer) => 1 / finer), rows: rows.map(({ what, shares }) => ({ what, shares })) },
    body: [
      frame(axes, [0, 0.5, 1, 2], [0.9, 0.92, 0.94, 0.96, 0.98, 1], (x) => (x === 0 ? '0' : `${x}`)),
      text(PLOT.left, PLOT.top + PLOT.height + 36, 'size of the elements over the usual one'),
      ...rows.flatMap(({ what, colour, shares }, k) => [
        line(
          shares.map((share, s) => at(1 / FINER[s], share)),
          `stroke="${colour}" stroke-width="2"`,
        ),
        ...shares.map((share, s) => dot(at(1 / FINER[s], share), 4, `fill="${colour}"`)),
        text(PLOT.left + 150 * k, PLOT.top + PLOT.height + 58, what, `fill="${colour}" font-weight="bold"`),
      ]),
    ].join('\n'),
  };
}

const AGES_years = [0.5, 2, 6, 20, 40, 60];

/** One measure over age at one pressure, with what was published. */
export function byAge(
  name: string,
  measure: SweepMeasure,
  netPressure_mmHg: number,
  most: number,
  ticks: readonly number[],
): Picture {
  const info = SWEEP_MEASURES[measure];
  const values = AGES_years.map((age_years) => {
    const row = sweepCell({ measure, age_years, netPressure_mmHg, options: { preset: 'uniaxial', dyed: false } });
    const value = row[info.value];
    return value === null || value === undefined ? null : round(value);
  });
  const axes: Axes = { x: [0, 80], y: [0, most] };
  const at = placing(axes);
  const found = AGES_years.flatMap((age, k): Place[] => (values[k] === null ? [] : [at(age, values[k])]));
  return {
    name,
    title: `${info.title}, ${info.unit}`,
    width: WIDTH,
    height: 430,
    numbers: { measure, ages_years: AGES_years, values, netPressure_mmHg: info.atPressure ? netPressure_mmHg : null },
    body: [
      frame(axes, [0, 20, 40, 60, 80], ticks, String),
      text(
        PLOT.left,
        PLOT.top + PLOT.height + 36,
        `age, years${info.atPressure ? `; net pressure ${netPressure_mmHg} mmHg` : ''}`,
      ),
      line(found, 'stroke="#1b4470" stroke-width="2"'),
      ...found.map((place) => dot(place, 4, 'fill="#1b4470"')),
      ...info.published.map(({ age_years: [from, to], value }) =>
        line([at(from - 0.6, value), at(to + 0.6, value)], 'stroke="#b3261e" stroke-width="5"'),
      ),
      text(
        PLOT.left,
        PLOT.top + PLOT.height + 58,
        `blue: computed${info.published.length > 0 ? '' : '; nothing is published'}`,
        'fill="#1b4470"',
      ),
      info.published.length > 0
        ? text(
            PLOT.left,
            PLOT.top + PLOT.height + 75,
            'red: published (Rajabi 2009), angle not defined there: trend only',
            'fill="#b3261e"',
          )
        : '',
    ].join('\n'),
  };
}
