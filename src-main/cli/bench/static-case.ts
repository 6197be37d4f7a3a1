import { type AnnulusSample, annulusSample } from '../../../physics/index.ts';
import { hasCalculix, solveInCalculix } from './calculix.ts';
import { type LeftOut, quantile, spentOn } from './timing.ts';

export interface StaticCase {
  readonly triangles: number;
  readonly ours_s: number;
  readonly ourResidualShare: number;
  /** CalculiX with as many unknowns in the plane, whose answer is not used, and with sides' middles, whose is. */
  readonly calculixThreeNode_s: number;
  readonly calculixSixNode_s: number;
  /** Our seconds over CalculiX's with as many unknowns; the goal is a fifth. */
  readonly share: number;
  /** Largest distance of a node between the two answers over the largest displacement. */
  readonly largestDifference_share: number;
}

function largestDifference(ring: AnnulusSample, ours: Float64Array, theirs: Float64Array): number {
  let farthest = 0;
  let difference = 0;
  for (let node = 0; node < ring.reference_mm.length / 2; node++) {
    const [u, v] = [0, 1].map((axis) => ours[node * 3 + axis] - ring.reference_mm[node * 2 + axis]);
    farthest = Math.max(farthest, Math.hypot(u, v));
    difference = Math.max(difference, Math.hypot(u - theirs[node * 2], v - theirs[node * 2 + 1]));
  }
  return difference / farthest;
}

/** The second case: the same static answer from another solver on the same 4,000 triangles. */
export function staticCase(): StaticCase | LeftOut {
  if (!hasCalculix()) return { leftOut: 'CalculiX (ccx) is not installed here' };
  const ring = annulusSample(100, 20);
  ring.solve();
  let answer = ring.solve();
  const ours = () =>
    spentOn(() => {
      answer = ring.solve();
    }).wall_s;
  // ours before, between and after, so that other work on the machine meets all
  const first_s = ours();
  const { wall_s: calculixThreeNode_s } = solveInCalculix(ring, 3);
  const second_s = ours();
  const { wall_s: calculixSixNode_s, moved_mm } = solveInCalculix(ring, 6);
  const ours_s = quantile([first_s, second_s, ours()], 0.5);
  return {
    triangles: ring.triangle.length / 3,
    ours_s,
    ourResidualShare: answer.residualShare,
    calculixThreeNode_s,
    calculixSixNode_s,
    share: ours_s / calculixThreeNode_s,
    largestDifference_share: largestDifference(ring, answer.x_mm, moved_mm),
  };
}
