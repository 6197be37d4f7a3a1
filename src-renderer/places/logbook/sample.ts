import type { AttemptSummary } from '../../../src-main/ipc/contract.ts';

/** How many attempts of a bundle are played again. */
export const SAMPLE_SIZE = 3;

/**
 * A sample of a bundle's attempts: spread over the bundle from first to last, those not played again yet before others.
 * The same bundle gives the same sample until something of it has been played.
 */
export function sampleOf(
  attempts: readonly AttemptSummary[],
  bundle: string,
  size: number = SAMPLE_SIZE,
): AttemptSummary[] {
  const closed = attempts.filter(({ fromBundle, digest }) => fromBundle === bundle && digest !== null);
  const fresh = closed.filter(({ replay }) => replay === 'not-tried');
  const from = fresh.length >= size ? fresh : closed;
  if (from.length <= size) return [...from];
  const at = (k: number): number => Math.round((k * (from.length - 1)) / Math.max(1, size - 1));
  return Array.from({ length: size }, (_, k) => from[at(k)]);
}
