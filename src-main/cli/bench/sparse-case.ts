import { createWorld, type Scenario, scaledSizes, sparseSample } from '../../../physics/index.ts';
import { quantile, spentOn } from './timing.ts';

export interface SparseCase {
  readonly nodes: number;
  /** Bytes that a call of five linear iterations goes through, the microseconds it takes and those of copying as many bytes. */
  readonly bytes: number;
  readonly call_us: number;
  readonly stream_us: number;
  /** The one over the other; the goal is 3. */
  readonly overStream: number;
}

const ROUNDS = 15;
const ITERATIONS = 5;
const CALLS = 20;

/** The fourth case: linear iterations by turns with a copy of as many bytes as they go through. */
export function sparseCase(scenario: Scenario, sizeFactor: number): SparseCase {
  const sample = sparseSample(createWorld(scenario, scenario.seed, { sizes: scaledSizes(sizeFactor) }));
  const bytes = sample.bytes(ITERATIONS);
  const from = new Uint8Array(bytes).fill(1);
  const to = new Uint8Array(bytes);
  const kernel: number[] = [];
  const stream: number[] = [];
  const perCall_us = (work: () => void): number =>
    (1e6 / CALLS) *
    spentOn(() => {
      for (let call = 0; call < CALLS; call++) work();
    }).wall_s;
  for (let round = 0; round < ROUNDS; round++) {
    kernel.push(perCall_us(() => sample.iterate(ITERATIONS)));
    stream.push(perCall_us(() => to.set(from)));
  }
  // the least disturbed quarter of the rounds of either
  const [call_us, stream_us] = [quantile(kernel, 0.25), quantile(stream, 0.25)];
  return { nodes: sample.nodes, bytes, call_us, stream_us, overStream: call_us / stream_us };
}
