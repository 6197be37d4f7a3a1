/** The problems that an independent solver is given beside the model's own, on the model's own meshes. */
import { createHash } from 'node:crypto';
import { neoHookean } from '../../physics/membrane/material.ts';
import { clampedHoleStretch, holedDisc } from '../../physics/verify/hole-checks.ts';
import { centreSlitFactor, edgeSlitFactor } from '../../physics/verify/reference/slits.ts';
import { clamp, settle, THICKNESS_mm } from '../../physics/verify/sample.ts';
import { edgeSlitJ, slitStripJ } from '../../physics/verify/slit-checks.ts';
import { forceAt, linear, N0, rightTip, slitStrip, TIP_EDGE, WIDE_PATCH } from '../../physics/verify/slit-sample.ts';
import { gradedLines, type StripSample, stripSample } from '../../physics/verify/strip-sample.ts';
import * as ccx from './solver-ccx.ts';
import type { Deck, Order } from './solver-freefem.ts';
import * as freefem from './solver-freefem.ts';
import { annulusMesh, type FlatMesh, stripMesh } from './solver-mesh.ts';
import type { Program } from './solver-run.ts';

export interface SolverCase {
  readonly name: string;
  readonly program: Program;
  readonly elements: string;
  readonly unit: string;
  /** Short enough to be run whenever the program is there. */
  readonly live: boolean;
  readonly decks: () => readonly Deck[];
  /** The number asked for, from what each deck's run gave. */
  readonly answer: (outputs: readonly string[]) => number;
  /** The same number from the product's own solver. */
  readonly ours: () => number;
  /** How far ours may be from it, relative. */
  readonly allowed: number;
  /** An answer that comes from neither, where there is one, and how far the independent one may be from it. */
  readonly outside?: { readonly value: number; readonly allowed: number; readonly source: string };
}

/** A number of ours that several cases ask for is computed once. */
function once(compute: () => number): () => number {
  let value: number | null = null;
  return () => {
    value ??= compute();
    return value;
  };
}

/** The same displacements on the same triangles: what is left is rounding and where each solver stops. */
const SAME_ELEMENTS = 1e-5;

const RADIUS = 4;
/** Rim stretch and hole stretch from the radial equation. Rivlin and Thomas 1951. */
const ANNULUS: readonly (readonly [number, number])[] = [
  [1.1, 1.3359],
  [1.2, 1.6582],
  [1.5, 2.5002],
];

function annulusCases(): SolverCase[] {
  // no tension field: the other programs have none
  const disc = () => holedDisc(RADIUS, neoHookean(1000), { tensionField: false });
  return ANNULUS.flatMap(([stretch, hole]): SolverCase[] => {
    const ours = once(() => clampedHoleStretch(disc(), stretch));
    const mesh = () => annulusMesh(disc());
    const outside = { value: hole, source: 'radial equation, Rivlin and Thomas 1951' };
    const common = { unit: '1', ours };
    const freefemCase = (order: Order): SolverCase => ({
      ...common,
      name: `annulus of ratio 4, rim stretch ${stretch}, order ${order}`,
      program: 'FreeFem++',
      elements: order === 1 ? 'P1, as ours' : 'P2',
      live: stretch === 1.2,
      decks: () => [freefem.annulusDeck(mesh(), stretch, order)],
      answer: ([out]) => freefem.readNumber(out),
      allowed: order === 1 ? SAME_ELEMENTS : 0.003,
      outside: { ...outside, allowed: order === 1 ? 0.003 : 0.0005 },
    });
    const ccxCase: SolverCase = {
      ...common,
      name: `annulus of ratio 4, rim stretch ${stretch}, six-node`,
      program: 'CalculiX',
      elements: 'CPS6, D1 0.002/mu',
      live: false,
      decks: () => [ccx.annulusDeck(mesh(), stretch)],
      answer: ([dat]) => ccx.readHoleStretch(mesh(), dat),
      allowed: 0.003,
      outside: { ...outside, allowed: 0.001 },
    };
    return [freefemCase(1), freefemCase(2), ccxCase];
  });
}

const INNER = WIDE_PATCH[0] * TIP_EDGE;
const OUTER = WIDE_PATCH[1] * TIP_EDGE;
const HELD = 1.2;
const MU_kPa = 1000;

function heldStrip(): StripSample {
  return slitStrip(2, 'centre', { material: neoHookean(MU_kPa) });
}

/** J over mu of a neo-Hookean strip with a centre slit of half its width, its ends held at a stretch. */
function heldStripJ(): number {
  const strip = heldStrip();
  for (let i = 1; i < strip.x.length; i += 3) strip.x[i] *= HELD;
  strip.xs.forEach((x, i) => {
    for (const j of [0, strip.ys.length - 1]) clamp(strip, strip.node(i, j), x, strip.ys[j] * HELD);
  });
  settle(strip, { tolerance_mN: 1e-6 });
  return forceAt(strip, rightTip(strip), TIP_EDGE)[0] / (MU_kPa * THICKNESS_mm);
}

function heldSlitCases(): SolverCase[] {
  const ours = once(heldStripJ);
  return ([1, 2] as const).map((order) => ({
    name: `neo-Hookean strip, centre slit of half its width, ends held at ${HELD}, order ${order}`,
    program: 'FreeFem++',
    elements: order === 1 ? 'P1, as ours' : 'P2',
    unit: 'mu mm',
    live: order === 1,
    decks: () => [freefem.slitDeck(stripMesh(heldStrip()), { stretch: HELD, inner: INNER, outer: OUTER }, order)],
    answer: ([out]) => freefem.readNumber(out),
    ours,
    allowed: order === 1 ? SAME_ELEMENTS : 0.005,
  }));
}

/** Half the change of a slit's length over which its energy is compared: one line of the grid. */
const CHANGE = TIP_EDGE;
/** Lines on either side of a tip that lie evenly, so that the grid looks the same from the tip of either slit. */
const EVEN_LINES = 5;

/** The slit strip on a grid that is even round the tips; the slit is longer or shorter than 1 by `change`, the grid stays. */
function evenStrip(at: 'centre' | 'edge', change: number): StripSample {
  const right: number[] = [];
  for (let k = -EVEN_LINES; k <= EVEN_LINES; k++) right.push(1 + k * TIP_EDGE);
  const fine = at === 'centre' ? [...right.map((x) => -x), ...right] : right;
  const xs = gradedLines(at === 'centre' ? -2 : 0, 2, fine, TIP_EDGE, EVEN_GROWTH);
  const ys = gradedLines(-6, 6, [0], TIP_EDGE / 2, EVEN_GROWTH);
  const tip = xs.reduce((best, x) => (Math.abs(x - 1 - change) < Math.abs(best - 1 - change) ? x : best));
  const start = at === 'centre' ? xs.reduce((best, x) => (Math.abs(x + tip) < Math.abs(best + tip) ? x : best)) : 0;
  return stripSample(xs, ys, [start, tip], linear, { tensionField: false });
}

const EVEN_GROWTH = 1.15;

function linearSlitCases(): SolverCase[] {
  return (['centre', 'edge'] as const).flatMap((at): SolverCase[] => {
    const ours = once(() => (at === 'centre' ? slitStripJ(2, at, N0) : edgeSlitJ(2)));
    const factor = at === 'centre' ? centreSlitFactor(0.5) : edgeSlitFactor(0.5);
    const source = at === 'centre' ? 'Feddersen; Tada' : 'Brown and Srawley; Tada';
    const outside = { value: Math.PI * factor ** 2, source };
    const mesh = (): FlatMesh => stripMesh(slitStrip(2, at));
    const common = { unit: 's^2 a/E', ours };
    const freefemCase = (order: Order): SolverCase => ({
      ...common,
      name: `linear strip, ${at} slit of half its width, order ${order}`,
      program: 'FreeFem++',
      elements: order === 1 ? 'P1, as ours' : 'P2',
      live: order === 1,
      decks: () => [freefem.linearSlitDeck(mesh(), INNER, OUTER, order)],
      answer: ([out]) => freefem.readNumber(out),
      // ours is stretched by 0.1 % and more at the tip, theirs by nothing
      allowed: order === 1 ? 0.005 : 0.03,
      outside: { ...outside, allowed: order === 1 ? 0.04 : 0.015 },
    });
    const ccxCase: SolverCase = {
      ...common,
      name: `linear strip, ${at} slit of half its width, by energies`,
      program: 'CalculiX',
      elements: 'CPS6',
      live: at === 'centre',
      decks: () => [-CHANGE, CHANGE].map((change) => ccx.slitDeck(stripMesh(evenStrip(at, change)))),
      answer: (dat) => {
        const [short, long] = dat.map(ccx.readEnergy);
        return (long - short) / (2 * CHANGE) / (at === 'centre' ? 2 : 1);
      },
      allowed: 0.03,
      outside: { ...outside, allowed: 0.01 },
    };
    return [freefemCase(1), freefemCase(2), ccxCase];
  });
}

export const SOLVER_CASES: readonly SolverCase[] = [...annulusCases(), ...heldSlitCases(), ...linearSlitCases()];

/** Digest of every file of a case's decks: ties a kept answer to the input that gave it. */
export function deckDigest(decks: readonly Deck[]): string {
  const hash = createHash('sha256');
  for (const { files } of decks) for (const [name, text] of files) hash.update(`${name}\n${text}`);
  return hash.digest('hex');
}

/** What is kept of a case. */
export interface KeptAnswer {
  readonly name: string;
  readonly program: Program;
  readonly version: string;
  readonly command: string;
  readonly elements: string;
  readonly unit: string;
  readonly answer: number;
  readonly deck: string;
}
