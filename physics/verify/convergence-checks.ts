/** Checks of how the answers settle as the mesh and the time step get finer: B20, B21. */
import { log2 } from '../core/elementary/logarithm.ts';
import { linearPlaneStress } from '../membrane/material.ts';
import { membraneEnergy } from '../membrane/membrane.ts';
import { createSolverState, solve } from '../membrane/solve.ts';
import type { Check, Finding } from './check.ts';
import { absolute, relative } from './compare.ts';
import { discSample, pullRim, tearThrough } from './disc-sample.ts';
import { arcSlitK, centreSlitFactor, tipForce as tipForceOf } from './reference/slits.ts';
import { settle, THICKNESS_mm } from './sample.ts';
import { arcSlitJ, edgeSlitJ, slitStripJ } from './slit-checks.ts';
import { N0 } from './slit-sample.ts';

/** How fine against the usual mesh: each step halves every size. The patch of the tip force keeps its size. */
const FINER: readonly number[] = [0.5, 1, 2];

/** Order p of an error that goes as size^p, from three answers at sizes that halve, and the answer at no size. */
function settled([coarse, middle, fine]: readonly number[]): { order: number; limit: number } {
  const order = log2((middle - coarse) / (fine - middle));
  return { order, limit: fine + (fine - middle) / (2 ** order - 1) };
}

const ARC_deg = 70;

interface Case {
  readonly what: string;
  readonly at: (finer: number) => number;
  readonly reference: number;
}

const cases = (): readonly Case[] => [
  {
    what: `arc slit of half-angle ${ARC_deg} degrees`,
    at: (finer) => arcSlitJ(ARC_deg, finer)[0],
    reference: tipForceOf(arcSlitK(1, 1, ARC_deg), 1).J1,
  },
  {
    what: 'centre slit of half the width',
    at: (finer) => slitStripJ(2, 'centre', N0, finer),
    reference: Math.PI * centreSlitFactor(0.5) ** 2,
  },
];

const ORDER_NOTE = 'the tip gives an error of the first order, the smooth rest one of the second';

function mesh(): readonly Finding[] {
  const orderOf = (what: string, values: readonly number[]): Finding => ({
    quantity: `${what}: order of the error of J in the size of the mesh`,
    computed: settled(values).order,
    reference: 1.5,
    unit: '1',
    tolerance: absolute(0.5),
    note: ORDER_NOTE,
  });
  const edge = orderOf(
    'edge slit of half the width',
    FINER.map((finer) => edgeSlitJ(2, finer)),
  );
  const rows = cases().flatMap(({ what, at, reference }): Finding[] => {
    const values = FINER.map(at);
    const J = (quantity: string, computed: number): Finding => ({
      quantity: `${what}: J ${quantity}`,
      computed,
      reference,
      unit: 'N0^2 a/S',
      tolerance: relative(0.01),
      note: `over the reference at double, usual and half size: ${values.map((value) => (value / reference).toFixed(4)).join(', ')}`,
    });
    return [
      orderOf(what, values),
      J('on the mesh of half the size', values[2]),
      J('in the limit', settled(values).limit),
    ];
  });
  return [...rows, edge];
}

/** E t, mN/mm; drag per node, mN s/mm, that makes a free sheet of radius 1 mm come most of the way back in a second. */
const S = 1000;
const DRAG = 40;
const TIME_s = 0.5;
const STEPS: readonly number[] = [15, 30, 60];

/** Energy left in a stretched slit disc over that at the start, a while after its load is let go, in so many steps. */
function energyLeft(steps: number): number {
  const points: number[] = [];
  for (let k = -8; k <= 8; k++) points.push(0.05 * k, 0);
  const tears = [tearThrough(points, 'live', 'live')];
  const sizes = { radius_mm: 1, tip_mm: 0.05, face_mm: 0.1, far_mm: 0.2, rim_mm: 0.2 };
  const disc = discSample({ ...sizes, tears }, linearPlaneStress(S / THICKNESS_mm, 0.5));
  const { body, x } = disc;
  pullRim(disc, 0.05 * S);
  settle(disc, { tolerance_mN: 1e-6 * S });
  const before = membraneEnergy(body.membrane, x);
  body.load.fill(0);
  body.drag.fill(DRAG);
  const state = createSolverState(x.length / 3);
  const increment = { from: x.slice(), dt_s: TIME_s / steps };
  for (let step = 0; step < steps; step++) {
    increment.from.set(x);
    const { converged } = solve(body, state, increment, x, { tolerance_mN: 1e-7 * S, maxIterations: 60 });
    if (!converged) throw new Error(`step ${step} of ${steps} did not come to rest`);
  }
  return membraneEnergy(body.membrane, x) / before;
}

function step(): readonly Finding[] {
  const values = STEPS.map(energyLeft);
  const { order, limit } = settled(values);
  const note = `${STEPS.map((steps, k) => `${(100 * values[k]).toFixed(3)} % at ${steps} steps`).join(', ')}`;
  return [
    {
      quantity: 'order of the error of a relaxing sheet in the time step',
      computed: order,
      reference: 1,
      unit: '1',
      tolerance: absolute(0.15),
      note,
    },
    {
      quantity:
        'energy left half a second after the release, in steps of the world, over that at the start, against the limit',
      computed: values[1],
      reference: limit,
      unit: '1',
      tolerance: relative(0.05),
      note,
    },
  ];
}

export const convergenceChecks: readonly Check[] = [
  {
    name: 'B20',
    problem: 'tip force against the size of the mesh',
    source: 'closed forms of B1 and B4; order 1 at a tip (Strang and Fix, memory), 2 elsewhere',
    first: false,
    quick: true,
    run: mesh,
  },
  {
    name: 'B21',
    problem: 'motion against the length of the time step',
    source: 'an implicit step of the first order: its error halves with the step (textbook)',
    first: false,
    quick: true,
    run: step,
  },
];
