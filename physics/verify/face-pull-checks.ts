/** Check of the tip force at a slit whose one face is pulled: B6. */
import { cos, sin } from '../core/elementary/circular.ts';
import { linearPlaneStress } from '../membrane/material.ts';
import { createTipPatch, tipForce } from '../tear/tip-force.ts';
import type { Check, Finding } from './check.ts';
import { relative } from './compare.ts';
import { facePullK, releaseRate } from './reference/slits.ts';
import { clamp, settle, THICKNESS_mm } from './sample.ts';
import { gradedLines, type StripSample, stripSample } from './strip-sample.ts';

/** E t, mN/mm, and the pull, mN. */
const S = 1000;
const F = 0.01 * S;
/** Distance from the pull to the held edges over that to the tip: far enough that the edges are not felt by more than 1 %. */
const FAR = 200;
/** Edge of the elements at the tip and at the pull. */
export const EDGE = 0.02;

/** Square sheet held at its edges, slit from the left to its middle; the grid is fine at the tip and where the face is pulled. */
function heldSheet(): StripSample {
  const xs = gradedLines(-FAR, FAR, [-1, 0], EDGE, 1.25);
  const ys = gradedLines(-FAR, FAR, [0], EDGE, 1.25);
  const material = linearPlaneStress(S / THICKNESS_mm, 0.5);
  const sheet = stripSample(xs, ys, [-FAR, 0], material, { tensionField: false });
  xs.forEach((x, i) => {
    for (const j of [0, ys.length - 1]) clamp(sheet, sheet.node(i, j), x, ys[j]);
  });
  ys.forEach((y, j) => {
    for (const i of [0, xs.length - 1]) clamp(sheet, sheet.node(i, j), xs[i], y);
  });
  clamp(sheet, sheet.lower(0), -FAR, 0);
  return sheet;
}

export interface PulledFace {
  readonly sheet: StripSample;
  readonly tip: number;
}

/** The held sheet at rest, its upper face pulled at a distance of 1 behind the tip, which lies at (0, 0) and points along +x. */
export function pulledFace(pull_deg: number): PulledFace {
  const sheet = heldSheet();
  const middle = sheet.ys.indexOf(0);
  const angle = (pull_deg * Math.PI) / 180;
  const pulled = sheet.node(sheet.column(-1), middle);
  sheet.body.load.set([F * cos(angle), F * sin(angle), 0], pulled * 3);
  settle(sheet, { tolerance_mN: 1e-5 * F });
  return { sheet, tip: sheet.node(sheet.column(0), middle) };
}

function facePull(pull_deg: number): Finding {
  const { sheet, tip } = pulledFace(pull_deg);
  const { membrane } = sheet.body;
  const patch = createTipPatch(membrane, tip, 1.1 * EDGE, 20 * EDGE);
  return {
    quantity: `J, pull at ${pull_deg} degrees from the tangent`,
    computed: (tipForce(membrane, patch, sheet.x)[0] * S) / (F * F),
    reference: releaseRate(facePullK(1, 1, 1, pull_deg), 1),
    unit: 'F^2/(S c)',
    tolerance: relative(0.04),
  };
}

export const facePullChecks: readonly Check[] = [
  {
    name: 'B6',
    problem: 'a force on one face of a long slit, behind its tip',
    source: 'Tada (memory); computed: J = F^2/(2 pi c S) whichever way the force points',
    first: false,
    quick: true,
    run: () => [90, 45, 0].map(facePull),
  },
];
