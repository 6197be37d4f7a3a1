/**
 * Input for CalculiX and what its answer means: six-node plane-stress triangles (CPS6) on a mesh of ours. Units: mu
 * or E is 1. Nothing but the mesh is taken from the model.
 */
import type { Deck } from './solver-freefem.ts';
import { type FlatMesh, HOLE, LOWER, RIM, UPPER, withMiddles, written } from './solver-mesh.ts';

/**
 * Thickness of the sheet. The program makes solids of plane-stress elements, whose thickness may only change smoothly: at a
 * thickness of the order of the elements they are too stiff (J of a slit 2 to 4 % low, at 1).
 */
const THICKNESS = 0.001;

/** Name of the job; the program reads job.inp and writes job.dat. */
export const JOB = 'job';

function head({ place, element }: ReturnType<typeof withMiddles>): string[] {
  const lines = ['*NODE, NSET=NALL'];
  place.forEach(([x, y], k) => {
    lines.push(`${k + 1}, ${written(x)}, ${written(y)}, 0.`);
  });
  lines.push('*ELEMENT, TYPE=CPS6, ELSET=EALL');
  element.forEach((nodes, k) => {
    lines.push([k + 1, ...nodes.map((node) => node + 1)].join(', '));
  });
  return lines;
}

const deck = (lines: readonly string[]): Deck => ({ files: [[`${JOB}.inp`, `${lines.join('\n')}\n`]] });

/** Nodes of a label's edges, the middles too, and the middle of each edge. */
function edgeNodes(mesh: FlatMesh, { element }: ReturnType<typeof withMiddles>, label: number) {
  const middle = new Map<string, number>();
  for (const [a, b, c, ab, bc, ca] of element) {
    middle.set(`${a},${b}`, ab).set(`${b},${c}`, bc).set(`${c},${a}`, ca);
  }
  return mesh.edge.filter((edge) => edge[2] === label).map(([a, b]) => [a, middle.get(`${a},${b}`)!, b] as const);
}

/** Neo-Hookean ring whose rim is held at a stretch; slightly compressible, as the program wants it: D1 of 0.002/mu. */
export function annulusDeck(mesh: FlatMesh, rimStretch: number): Deck {
  const fine = withMiddles(mesh);
  const rim = new Set(edgeNodes(mesh, fine, RIM).flat());
  const hole = new Set(edgeNodes(mesh, fine, HOLE).flatMap(([a, , b]) => [a, b]));
  const lines = head(fine);
  lines.push('*NSET, NSET=NHOLE');
  for (const node of hole) lines.push(`${node + 1},`);
  lines.push('*MATERIAL, NAME=SHEET', '*HYPERELASTIC, NEO HOOKE', '0.5, 0.002');
  lines.push('*SOLID SECTION, ELSET=EALL, MATERIAL=SHEET', `${THICKNESS}`);
  lines.push('*STEP, NLGEOM, INC=200', '*STATIC', '0.1, 1., 1e-4, 0.25', '*BOUNDARY');
  for (const node of rim) {
    const [x, y] = fine.place[node];
    lines.push(`${node + 1}, 1, 1, ${written((rimStretch - 1) * x)}`);
    lines.push(`${node + 1}, 2, 2, ${written((rimStretch - 1) * y)}`);
  }
  lines.push('*NODE PRINT, NSET=NHOLE, FREQUENCY=1000', 'U', '*END STEP');
  return deck(lines);
}

/** Mean stretch of the hole's edges from the displacements in the program's table. */
export function readHoleStretch(mesh: FlatMesh, dat: string): number {
  const moved = new Map<number, readonly [number, number]>();
  for (const line of tableAfter(dat, 'displacements')) {
    const [node, ux, uy] = line;
    moved.set(node - 1, [ux, uy]);
  }
  const edges = mesh.edge.filter((edge) => edge[2] === HOLE);
  let sum = 0;
  for (const [a, b] of edges) {
    const [pa, pb, ua, ub] = [mesh.place[a], mesh.place[b], moved.get(a)!, moved.get(b)!];
    const [dx, dy] = [pb[0] - pa[0], pb[1] - pa[1]];
    sum += Math.hypot(dx + ub[0] - ua[0], dy + ub[1] - ua[1]) / Math.hypot(dx, dy);
  }
  return sum / edges.length;
}

/** Linear slit strip (E 1, nu 0.3) under unit dead tension on its upper and lower edge: its stored energy is asked for. */
export function slitDeck(mesh: FlatMesh): Deck {
  const fine = withMiddles(mesh);
  const lines = head(fine);
  lines.push(
    '*MATERIAL, NAME=SHEET',
    '*ELASTIC',
    '1., 0.3',
    '*SOLID SECTION, ELSET=EALL, MATERIAL=SHEET',
    `${THICKNESS}`,
  );
  // the load is in balance: these hold the strip in place and carry nothing
  const bottom = edgeNodes(mesh, fine, LOWER).flatMap(([a, , b]) => [a, b]);
  const byX = [...bottom].sort((a, b) => mesh.place[a][0] - mesh.place[b][0]);
  lines.push('*BOUNDARY', `${byX[0] + 1}, 1, 2`, `${byX[byX.length - 1] + 1}, 2, 2`);
  lines.push('*STEP', '*STATIC', '*CLOAD');
  for (const [label, sign] of [
    [LOWER, -1],
    [UPPER, 1],
  ])
    for (const [a, middle, b] of edgeNodes(mesh, fine, label)) {
      const length = Math.abs(mesh.place[b][0] - mesh.place[a][0]);
      for (const [node, share] of [
        [a, 1 / 6],
        [middle, 4 / 6],
        [b, 1 / 6],
      ])
        lines.push(`${node + 1}, 2, ${(sign * share * length * THICKNESS).toExponential(DIGITS)}`);
    }
  lines.push('*EL PRINT, ELSET=EALL, TOTALS=ONLY', 'ELSE', '*END STEP');
  return deck(lines);
}

const DIGITS = 10;

/** Stored energy of the whole sheet per thickness. */
export function readEnergy(dat: string): number {
  const rows = tableAfter(dat, 'total internal energy');
  return rows[rows.length - 1][0] / THICKNESS;
}

/** Rows of numbers after the last heading that holds the words. @throws when there is none, as after a failed run */
function tableAfter(dat: string, words: string): number[][] {
  const lines = dat.split('\n');
  const at = lines.findLastIndex((line) => line.includes(words));
  const rows: number[][] = [];
  for (const line of at < 0 ? [] : lines.slice(at + 1)) {
    const numbers = line.trim().split(/\s+/).map(Number);
    if (line.trim() === '') continue;
    if (numbers.some((value) => !Number.isFinite(value))) break;
    rows.push(numbers);
  }
  if (rows.length === 0) throw new Error(`no ${words} in the program's answer`);
  return rows;
}
