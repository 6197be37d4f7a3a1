/** A sample sheet as the world sees one, for checks of what the world says of tips: no eye, no instrument, no rim. */
import { createSolverState } from '../membrane/solve.ts';
import { liveTips, type TearLine } from '../mesh/tear-line.ts';
import { createTipPatch, PATCH_RADII } from '../tear/tip-force.ts';
import { twinBody } from '../world/sheet.ts';
import type { Grip, Tip, World } from '../world/state.ts';
import { updateSheetForces, updateTipForces } from '../world/tips.ts';
import type { DiscSample } from './disc-sample.ts';

/** What of a world the functions that judge tips read. */
type Judged = Pick<
  World,
  'tears' | 'mesh' | 'body' | 'x' | 'tips' | 'sizes' | 'grip' | 'sheet' | 'sheetBody' | 'sheetSolver' | 'frame'
>;

/**
 * World of a disc at rest with its tips' forces brought up to date, the whole and the sheet's part.
 *
 * @param held nodes whose springs are the grip's; none for a sheet that nobody pulls
 */
export function plainWorld(disc: DiscSample, tears: TearLine[], tip_mm: number, held: readonly number[] = []): World {
  const { mesh, body, x } = disc;
  const grip = held.length === 0 ? null : ({ nodes: Int32Array.from(held) } as Partial<Grip> as Grip);
  const judged: Judged = {
    tears,
    mesh,
    body,
    x,
    sizes: { tip_mm, face_mm: 2 * tip_mm, far_mm: 1, rim_mm: 1, growth: 0.15, levels: 1 },
    // only the tear resistance and the centre are read
    frame: { eye: { tearResistance_mN: 1 }, targetCentre_mm: [0, 0] } as unknown as World['frame'],
    grip,
    sheet: x.slice(),
    sheetBody: twinBody(body),
    sheetSolver: createSolverState(mesh.nodeCount),
    tips: liveTips(tears).map((ref): Tip => {
      const face = mesh.left[tears.indexOf(ref.tear)];
      const node = ref.atEnd ? face[face.length - 1] : face[0];
      const patch = createTipPatch(body.membrane, node, PATCH_RADII[0] * tip_mm, PATCH_RADII[1] * tip_mm);
      const rest = { debt_mm: 0, lastAdvance_step: -1000, tearing: false, danger: null };
      return { ref, id: ref.tear.id * 2 + (ref.atEnd ? 1 : 0), node, patch, force: [0, 0], sheet: null, ...rest };
    }),
  };
  const world = judged as World;
  updateTipForces(world);
  updateSheetForces(world);
  return world;
}
