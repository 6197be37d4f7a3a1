/** Pictures of a capsule in the middle of a tear, and of where a tear went. */
import {
  createWorld,
  digestWorld,
  handPlayer,
  runHand,
  stageGeometry,
  stepWorld,
  type TipView,
  viewWorld,
  type World,
  type WorldView,
} from '../../../physics/index.ts';
import { handOf, scenarioOf } from '../shipped.ts';
import { arrow, dot, line, type Picture, type Place, round, text } from './svg.ts';

const SIZE = 480;
const TOP = 34;
const HALF_mm = 3.6;
/** Tension of one step of colour, mN/mm, and the colours from slack to tense. */
const BAND_mN_per_mm = 0.4;
const COLOURS = ['#f4f6f8', '#dbe7f0', '#bcd3e4', '#97bad4', '#6f9cc0', '#4c7eaa', '#30608f', '#1b4470'];
/** Of force arrows, mm per mN. */
const ARROW_mm_per_mN = 0.09;

const scale = SIZE / (2 * HALF_mm);
const onPage = ([x, y]: Place): Place => [SIZE / 2 + scale * x, TOP + SIZE / 2 - scale * y];

/** The world of a guided hand after so many steps. */
export function worldAfter(scenario: string, hand: string, steps: number): World {
  const eye = scenarioOf(scenario);
  const world = createWorld(eye, eye.seed);
  const next = handPlayer(world, handOf(hand));
  while (world.step < steps) {
    const command = next(viewWorld(world));
    if (command === null) throw new Error(`${hand} ends at step ${world.step}`);
    stepWorld(world, command);
  }
  return world;
}

/** Triangles as one path for each step of tension, from low to high. */
function sheet({ position_mm, triangle, tension_mN_per_mm }: WorldView): string {
  const paths = COLOURS.map(() => '');
  for (let t = 0; t < tension_mN_per_mm.length; t++) {
    const places = [0, 1, 2].map((corner): Place => {
      const node = triangle[t * 3 + corner];
      return onPage([position_mm[node * 3], position_mm[node * 3 + 1]]);
    });
    if (places.every(([x, y]) => x < 0 || x > SIZE || y < TOP || y > TOP + SIZE)) continue;
    const band = Math.min(COLOURS.length - 1, Math.floor(tension_mN_per_mm[t] / BAND_mN_per_mm));
    const [a, b, c] = places.map(([x, y]): Place => [Math.round(x), Math.round(y)]);
    paths[band] += `M${a[0]} ${a[1]}l${b[0] - a[0]} ${b[1] - a[1]} ${c[0] - b[0]} ${c[1] - b[1]}z`;
  }
  return paths
    .map((d, k) => (d === '' ? '' : `<path d="${d}" fill="${COLOURS[k]}" stroke="${COLOURS[k]}" stroke-width=".6"/>`))
    .join('\n');
}

const liveTip = ({ tips }: WorldView): TipView => {
  const tip = tips.find(({ live, sheet_mN }) => live && sheet_mN !== null);
  if (tip === undefined) throw new Error('no live tip whose force is split');
  return tip;
};

/** Drawn in this order, so that the sum lies widest and below. */
const ARROWS = [
  ['both', '#777', 6],
  ['pull', '#1b9e3b', 2.5],
  ['sheet', '#d3261e', 2.5],
] as const;

export function midTear(name: string, words: string, scenario: string, hand: string, steps: number): Picture {
  const world = worldAfter(scenario, hand, steps);
  const view = viewWorld(world);
  const tip = liveTip(view);
  const forces = { sheet: tip.sheet_mN!, pull: tip.pull_mN!, both: tip.resultant_mN };
  const [x, y] = tip.position_mm;
  const arrows = ARROWS.map(([key, colour, wide]) => {
    const [fx, fy] = forces[key];
    return arrow(onPage([x, y]), onPage([x + ARROW_mm_per_mN * fx, y + ARROW_mm_per_mN * fy]), colour, wide);
  });
  const margins = view.tearPath_mm.map((path) =>
    line(
      Array.from({ length: path.length / 2 }, (_, k) => onPage([path[2 * k], path[2 * k + 1]])),
      'stroke="#111" stroke-width="1.5"',
    ),
  );
  const size = ([fx, fy]: Place) => round(Math.hypot(fx, fy));
  const legend = ARROWS.map(([key, colour], k) =>
    text(
      12 + 165 * k,
      TOP + SIZE + 18,
      `${key === 'both' ? 'sheet + pull' : key} ${size(forces[key])} mN`,
      `fill="${colour}" font-weight="bold"`,
    ),
  );
  const bands = COLOURS.map(
    (colour, k) =>
      `<rect x="${12 + 30 * k}" y="${TOP + SIZE + 28}" width="30" height="10" fill="${colour}" stroke="#999" stroke-width=".5"/>`,
  );
  const scaleWords = text(260, TOP + SIZE + 37, `tension, ${BAND_mN_per_mm} mN/mm a step`);
  const clip = `<clipPath id="c"><rect x="0" y="${TOP}" width="${SIZE}" height="${SIZE}"/></clipPath>`;
  return {
    name,
    title: words,
    width: SIZE,
    height: SIZE + TOP + 86,
    numbers: {
      scenario,
      hand,
      steps,
      digest: digestWorld(world),
      sheet_mN: forces.sheet.map((f) => round(f)),
      pull_mN: forces.pull.map((f) => round(f)),
      resultant_mN: forces.both.map((f) => round(f)),
      drivingRatio: round(tip.drivingRatio, 3),
      largestTension_mN_per_mm: round(Math.max(...view.tension_mN_per_mm)),
    },
    body: [
      clip,
      `<g clip-path="url(#c)">${sheet(view)}${margins.join('')}${arrows.join('')}</g>`,
      ...legend,
      ...bands,
      scaleWords,
      text(
        12,
        TOP + SIZE + 54,
        `tip at ${round(tip.drivingRatio)} of its resistance; ${round(2 * HALF_mm, 1)} mm across`,
      ),
    ].join('\n'),
  };
}

const COURSE_COLOURS = ['#1b4470', '#b3261e'] as const;

/** Torn lines as they would lie in the tense eye, one colour for each hand, over the line to follow and the end of the zonule-free zone. */
export function courses(name: string, words: string, runs: readonly (readonly [string, string, string])[]): Picture {
  const results = runs.map(([scenario, hand]) => runHand(scenarioOf(scenario), handOf(hand)));
  const geometry = stageGeometry(scenarioOf(runs[0][0]));
  const zone = geometry.zonuleFreeDiameter_mm / 2;
  const aim = geometry.target.lineDiameter_mm / 2;
  const { baseStretch } = createWorld(scenarioOf(runs[0][0])).frame;
  const drawn = results.flatMap(({ tears }, k) =>
    tears.map(({ reference_mm }, tear) =>
      line(
        reference_mm.map(([x, y]) => onPage([baseStretch * x, baseStretch * y])),
        `stroke="${COURSE_COLOURS[runs.length > 1 ? k : tear % 2]}" stroke-width="2"`,
      ),
    ),
  );
  const legend = results.map(({ ended, opening }, k) =>
    text(
      12,
      TOP + SIZE + 18 + 17 * k,
      `${runs[k][2]}: ${ended}${opening ? `, opening ${round(opening.equivalentDiameter_mm)} mm` : ''}`,
      `fill="${runs.length > 1 ? COURSE_COLOURS[k] : '#222'}" font-weight="bold"`,
    ),
  );
  return {
    name,
    title: words,
    width: SIZE,
    height: SIZE + TOP + 56 + 17 * runs.length,
    numbers: results.map(({ scenario, hand, ended, digest, opening, steps }) => ({
      scenario,
      hand,
      ended,
      steps,
      digest,
      diameter_mm: opening ? round(opening.equivalentDiameter_mm, 3) : null,
    })),
    body: [
      dot(onPage(geometry.lensCentre_mm), zone * scale, 'fill="none" stroke="#999" stroke-dasharray="2 4"'),
      dot(onPage(geometry.target.centre_mm), aim * scale, 'fill="none" stroke="#666" stroke-dasharray="7 5"'),
      ...drawn,
      ...legend,
      text(
        12,
        TOP + SIZE + 18 + 17 * runs.length,
        'in the tense eye before the cut; dashes: line to follow, dots: zonule-free zone',
      ),
    ].join('\n'),
  };
}
