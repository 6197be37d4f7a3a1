import type { WorldView } from '../../physics/index.ts';

/**
 * The view without free pieces and their margins, for looking at the finished opening: the disc in the jaws would lie
 * over it. Node numbers stay as they are.
 */
export function rimSideOnly(view: WorldView): WorldView {
  const free = new Uint8Array(view.position_mm.length / 3);
  const kept: number[] = [];
  for (let t = 0; t < view.piece.length; t++) {
    const corners = view.triangle.subarray(3 * t, 3 * t + 3);
    if (view.piece[t] === 1) for (const node of corners) free[node] = 1;
    else kept.push(t);
  }
  const triangle = new Uint32Array(3 * kept.length);
  for (const [i, t] of kept.entries()) triangle.set(view.triangle.subarray(3 * t, 3 * t + 3), 3 * i);
  return {
    ...view,
    triangle,
    piece: new Uint8Array(kept.length),
    tension_mN_per_mm: Float32Array.from(kept, (t) => view.tension_mN_per_mm[t]!),
    margins: view.margins.flatMap((run) => heldRuns(run, free)),
    // a topology of its own, so that it is never blended with what lay before
    topology: -2 - view.topology,
  };
}

/** The stretches of a margin that the rim holds: a cut that began inside the disc went with the disc. */
function heldRuns(run: Uint32Array, free: Uint8Array): Uint32Array[] {
  const held: Uint32Array[] = [];
  let begin = 0;
  for (let i = 0; i <= run.length; i++) {
    if (i < run.length && free[run[i]!] === 0) continue;
    if (i - begin > 1) held.push(run.slice(begin, i));
    begin = i + 1;
  }
  return held;
}
