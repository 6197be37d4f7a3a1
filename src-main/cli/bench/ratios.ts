/** The ratios of a run against the goals, and against what only a fault would give. */
import type { AttemptTiming } from './attempt-timing.ts';
import type { ClothCase } from './cloth-case.ts';
import type { GrowthCase } from './growth-case.ts';
import type { SparseCase } from './sparse-case.ts';
import type { StaticCase } from './static-case.ts';
import type { SweepCase } from './sweep-case.ts';

export interface Ratio {
  readonly name: string;
  readonly found: number;
  readonly goal: string;
  readonly met: boolean;
  /** So far from the goal that another machine, or a busy one, does not explain it. */
  readonly farOff: boolean;
}

/** What the named cases of a run gave; a case that was not run or was left out gives no ratio. */
export interface CaseResults {
  readonly realTime?: { readonly attempts: readonly AttemptTiming[]; readonly growth: GrowthCase };
  readonly static?: Partial<StaticCase>;
  readonly cloth?: ClothCase;
  readonly sparse?: SparseCase;
  readonly sweep?: Partial<SweepCase>;
}

const atMost = (name: string, found: number, goal: number, fault: number): Ratio => ({
  name,
  found,
  goal: `at most ${goal}`,
  met: found <= goal,
  farOff: !(found <= fault),
});

const atLeast = (name: string, found: number, goal: number, fault: number): Ratio => ({
  name,
  found,
  goal: `at least ${goal}`,
  met: found >= goal,
  farOff: !(found >= fault),
});

export function ratiosOf({ realTime, static: ring, cloth, sparse, sweep }: CaseResults): Ratio[] {
  const ratios: Ratio[] = [];
  for (const { scenario, realTimeFactorOfCpu, step99_ms } of realTime?.attempts ?? []) {
    // an absolute figure: a slow machine is no fault
    ratios.push(atLeast(`${scenario}, simulated over processor seconds`, realTimeFactorOfCpu, 4, 0));
    ratios.push(atMost(`${scenario}, 99th percentile of a step, ms`, step99_ms, 16, Infinity));
  }
  if (realTime) {
    const { points, exponent } = realTime.growth.awayFromTip;
    ratios.push(atMost('growth exponent of a step over nodes', exponent, 1.15, 1.8));
    const large = points.find(({ nodes }) => nodes > 3_000);
    if (large)
      ratios.push(atLeast(`${large.nodes} nodes, simulated over processor seconds`, large.realTimeFactorOfCpu, 1, 0));
  }
  if (ring?.share !== undefined) ratios.push(atMost('ring, our seconds over CalculiX', ring.share, 0.2, 1));
  if (ring?.largestDifference_share !== undefined)
    ratios.push(atMost('ring, difference of the answers', ring.largestDifference_share, 0.005, 0.005));
  if (cloth) ratios.push(atMost('our step over one of a mass-spring cloth', cloth.overCloth, 1, 10));
  if (sparse) ratios.push(atMost('sparse sums over streaming their bytes', sparse.overStream, 3, 30));
  if (sweep?.efficiency !== undefined) ratios.push(atLeast('sweep, speed-up over cores', sweep.efficiency, 0.85, 0.3));
  return ratios;
}
