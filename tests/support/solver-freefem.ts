/**
 * Input for FreeFem++: a neo-Hookean sheet in plane stress with its energy written out, W = mu/2 (I1 + 1/det C - 3) with
 * mu = 1, on a mesh of ours. Nothing but the mesh is taken from the model.
 */
import { asMsh, type FlatMesh, GAPE, HOLE, LOWER, RIM, UPPER } from './solver-mesh.ts';

export interface Deck {
  /** File name and text; the first one is what the program is started with. */
  readonly files: readonly (readonly [string, string])[];
}

/** Displacements of first or second order on the straight-sided triangles. */
export type Order = 1 | 2;

const space = (order: Order) => `mesh Th = readmesh("sheet.msh");
Th = movemesh(Th, [x, abs(y) < ${2 * GAPE} ? 0. : y]);
fespace Vh(Th, [P${order}, P${order}]);
fespace Qh(Th, P1);
Vh [u, v], [du, dv], [p, q];
`;

/** Stress P = F - J^-3 cof F, its change with F, and Newton's method. `held` are the edges that are held where they are put first. */
const newton = (held: string) => `
macro Fxx() (1 + dx(u)) //
macro Fxy() (dy(u)) //
macro Fyx() (dx(v)) //
macro Fyy() (1 + dy(v)) //
macro J() (Fxx*Fyy - Fxy*Fyx) //
macro W() (0.5*(Fxx^2 + Fxy^2 + Fyx^2 + Fyy^2 + 1/J^2 - 3)) //
macro Pxx() (Fxx - Fyy/J^3) //
macro Pxy() (Fxy + Fyx/J^3) //
macro Pyx() (Fyx + Fxy/J^3) //
macro Pyy() (Fyy - Fxx/J^3) //
macro dJ(a, b) (dx(a)*Fyy + Fxx*dy(b) - dy(a)*Fyx - Fxy*dx(b)) //
problem step([du, dv], [p, q], solver = UMFPACK) =
  int2d(Th)(
      dx(du)*dx(p) + dy(du)*dy(p) + dx(dv)*dx(q) + dy(dv)*dy(q)
    + 3*dJ(du, dv)*dJ(p, q)/J^4
    - (dx(p)*dy(dv) + dy(q)*dx(du) - dy(p)*dx(dv) - dx(q)*dy(du))/J^3)
  + int2d(Th)(Pxx*dx(p) + Pxy*dy(p) + Pyx*dx(q) + Pyy*dy(q))
  ${held};
real change = 1;
for (int i = 0; i < 60 && change > 1e-11; i++) {
  step;
  u[] += du[];
  change = du[].linfty;
}
if (!(change <= 1e-11)) { cout << "not at rest: " << change << endl; exit(3); }
cout.precision(12);
`;

/** Ring whose rim is held at a stretch; gives the mean stretch along the hole's edge. */
export function annulusDeck(mesh: FlatMesh, rimStretch: number, order: Order): Deck {
  const held = `+ on(${RIM}, du = 0, dv = 0)`;
  const text = `${space(order)}real l = ${rimStretch};
[u, v] = [(l - 1)*x, (l - 1)*y];
${newton(held)}
real along = int1d(Th, ${HOLE})(sqrt((-Fxx*N.y + Fxy*N.x)^2 + (-Fyx*N.y + Fyy*N.x)^2));
cout << "hole stretch " << along/int1d(Th, ${HOLE})(1.) << endl;
`;
  return {
    files: [
      ['annulus.edp', text],
      ['sheet.msh', asMsh(mesh)],
    ],
  };
}

export interface SlitRequest {
  /** Stretch along y at which the upper and the lower edge are held; they keep their width. */
  readonly stretch: number;
  /** Radii of the weight round the tip at (1, 0): 1 inside the first, 0 beyond the second. */
  readonly inner: number;
  readonly outer: number;
}

/** Slit strip held stretched; gives J of its right tip over mu as one integral over the sheet. */
export function slitDeck(mesh: FlatMesh, request: SlitRequest, order: Order): Deck {
  const { stretch, inner, outer } = request;
  const held = `+ on(${LOWER}, ${UPPER}, du = 0, dv = 0)`;
  const text = `${space(order)}real l = ${stretch};
[u, v] = [0, (l - 1)*y];
${newton(held)}
Qh weight = max(0., min(1., (${outer} - sqrt((x - 1)^2 + y^2))/(${outer} - ${inner})));
real force = -int2d(Th)((W - Fxx*Pxx - Fyx*Pyx)*dx(weight) - (Fxx*Pxy + Fyx*Pyy)*dy(weight));
cout << "tip force " << force << endl;
`;
  return {
    files: [
      ['slit.edp', text],
      ['sheet.msh', asMsh(mesh)],
    ],
  };
}

/** Linear slit strip (E 1, nu 1/2) under unit dead tension on its upper and lower edge; gives J of its right tip at (1, 0). */
export function linearSlitDeck(mesh: FlatMesh, inner: number, outer: number, order: Order): Deck {
  const text = `${space(order)}real nu = 0.5, k = 1/(1 - nu^2);
macro sxx() (k*(dx(u) + nu*dy(v))) //
macro syy() (k*(dy(v) + nu*dx(u))) //
macro sxy() (k*(1 - nu)/2*(dy(u) + dx(v))) //
macro W() (0.5*(sxx*dx(u) + syy*dy(v) + sxy*(dy(u) + dx(v)))) //
// a trace of stiffness to the ground holds the strip, whose load is in balance, in its place
solve rest([u, v], [p, q], solver = UMFPACK) =
  int2d(Th)(sxx*dx(p) + syy*dy(q) + sxy*(dy(p) + dx(q)) + 1e-9*(u*p + v*q))
  - int1d(Th, ${UPPER})(q) + int1d(Th, ${LOWER})(q);
cout.precision(12);
Qh weight = max(0., min(1., (${outer} - sqrt((x - 1)^2 + y^2))/(${outer} - ${inner})));
real force = -int2d(Th)((W - dx(u)*sxx - dx(v)*sxy)*dx(weight) - (dx(u)*sxy + dx(v)*syy)*dy(weight));
cout << "tip force " << force << endl;
`;
  return {
    files: [
      ['linear.edp', text],
      ['sheet.msh', asMsh(mesh)],
    ],
  };
}

/** The number that a deck prints last, after the words it prints it with. @throws when it is not there */
export function readNumber(out: string): number {
  const found = /(?:hole stretch|tip force) (\S+)\s*$/.exec(out);
  const value = Number(found?.[1]);
  if (found === null || !Number.isFinite(value)) throw new Error("no number in the program's answer");
  return value;
}
