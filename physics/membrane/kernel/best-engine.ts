/** The fastest engine that the platform has. */
import { type Engine, plainEngine } from '../engine.ts';
import { createKernelEngine } from './kernel-engine.ts';

let best: Engine | null = null;

/** Made when first asked for; one for all bodies. */
export function bestEngine(): Engine {
  best ??= createKernelEngine() ?? plainEngine;
  return best;
}
