/** The ring of rubber in CalculiX: input on the same triangles, a run, and the displacements it prints. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ANNULUS_RIM_STRETCH, type AnnulusSample } from '../../../physics/index.ts';

const JOB = 'ring';
/** The program takes at most 20 characters for a number. */
const DECIMALS = 12;
const LONGEST_ms = 300_000;
/** The program makes solids of plane-stress elements; they must be thin against their sides. */
const THICKNESS = 0.001;

export const hasCalculix = (): boolean => spawnSync('ccx', ['-v'], { timeout: 30_000 }).error === undefined;

/** Middles of all sides: x,y of each, and the number that the side between two nodes has. */
function middlesOf({ reference_mm, triangle }: AnnulusSample) {
  const number = new Map<number, number>();
  const places: [number, number][] = [];
  const nodes = reference_mm.length / 2;
  const between = (a: number, b: number): number => {
    const key = Math.min(a, b) * nodes + Math.max(a, b);
    let found = number.get(key);
    if (found === undefined) {
      found = nodes + places.length;
      number.set(key, found);
      places.push(
        [0, 1].map((axis) => 0.5 * (reference_mm[a * 2 + axis] + reference_mm[b * 2 + axis])) as [number, number],
      );
    }
    return found;
  };
  const elements: number[][] = [];
  for (let t = 0; t < triangle.length; t += 3) {
    const [a, b, c] = triangle.slice(t, t + 3);
    elements.push([a, b, c, between(a, b), between(b, c), between(c, a)]);
  }
  return { places, elements, between };
}

/** Nodes of a plane-stress triangle. Sides are straight in either. */
export type ElementNodes = 3 | 6;

/**
 * Mu 1, slightly compressible as the program wants it (D1 = 0.002/mu). Its three-node triangles lock so near to incompressibility
 * and move a third too little; they tell what it takes for as many unknowns as ours, the six-node ones what the answer is.
 */
function deck(ring: AnnulusSample, elementNodes: ElementNodes): string {
  const { reference_mm, rim } = ring;
  const { places, elements, between } = middlesOf(ring);
  const nodes = reference_mm.length / 2;
  const place = (node: number): readonly [number, number] =>
    node < nodes ? [reference_mm[node * 2], reference_mm[node * 2 + 1]] : places[node - nodes];
  const lines = ['*NODE, NSET=NALL'];
  const count = elementNodes === 6 ? nodes + places.length : nodes;
  for (let node = 0; node < count; node++)
    lines.push(
      `${node + 1}, ${place(node)
        .map((value) => value.toFixed(DECIMALS))
        .join(', ')}, 0.`,
    );
  lines.push(`*ELEMENT, TYPE=CPS${elementNodes}, ELSET=EALL`);
  elements.forEach((element, t) => {
    lines.push([t + 1, ...element.slice(0, elementNodes).map((node) => node + 1)].join(', '));
  });
  lines.push('*NSET, NSET=CORNERS, GENERATE', `1, ${nodes}, 1`);
  lines.push('*MATERIAL, NAME=SHEET', '*HYPERELASTIC, NEO HOOKE', '0.5, 0.002');
  lines.push('*SOLID SECTION, ELSET=EALL, MATERIAL=SHEET', `${THICKNESS}`);
  lines.push('*STEP, NLGEOM, INC=200', '*STATIC', '0.25, 1., 1e-4, 0.5', '*BOUNDARY');
  const held = [...rim, ...rim.map((node, k) => between(node, rim[(k + 1) % rim.length]))];
  for (const node of held.filter((one) => one < count))
    place(node).forEach((value, axis) => {
      const moved = ((ANNULUS_RIM_STRETCH - 1) * value).toFixed(DECIMALS);
      lines.push(`${node + 1}, ${axis + 1}, ${axis + 1}, ${moved}`);
    });
  lines.push('*NODE PRINT, NSET=CORNERS, FREQUENCY=1000', 'U', '*END STEP');
  return `${lines.join('\n')}\n`;
}

export interface CalculixAnswer {
  /** From its start to its end, reading and writing included. */
  readonly wall_s: number;
  /** 2 per node, mm. */
  readonly moved_mm: Float64Array;
}

/** Runs the program on the ring in a folder of its own. Throws when it leaves no answer; it ends with 0 even then. */
export function solveInCalculix(ring: AnnulusSample, elementNodes: ElementNodes): CalculixAnswer {
  const folder = mkdtempSync(join(tmpdir(), 'rimward-ring-'));
  try {
    writeFileSync(join(folder, `${JOB}.inp`), deck(ring, elementNodes));
    const started = performance.now();
    const env = { ...process.env, OMP_NUM_THREADS: '1' };
    const { stdout, error } = spawnSync('ccx', ['-i', JOB], {
      cwd: folder,
      encoding: 'utf8',
      timeout: LONGEST_ms,
      env,
    });
    const wall_s = (performance.now() - started) / 1000;
    const answer = join(folder, `${JOB}.dat`);
    if (error || !existsSync(answer))
      throw new Error(`CalculiX gave no answer: ${error?.message ?? stdout.slice(-300)}`);
    return { wall_s, moved_mm: displacements(readFileSync(answer, 'utf8'), ring.reference_mm.length / 2) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function displacements(text: string, nodes: number): Float64Array {
  const moved = new Float64Array(2 * nodes).fill(Number.NaN);
  for (const line of text.split('\n')) {
    const [node, x, y] = line.trim().split(/\s+/).map(Number);
    if (Number.isInteger(node) && node >= 1 && node <= nodes) moved.set([x, y], 2 * (node - 1));
  }
  if (moved.some(Number.isNaN)) throw new Error('CalculiX printed no displacement for some node');
  return moved;
}
