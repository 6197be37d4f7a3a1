/*
 * The scenarios and guided hands that ship, as raw data, so that a bundle carries them without a file system.
 * They go through the same check as any other file before use.
 */
import adultBaseline from './adult-baseline.json' with { type: 'json' };
import adultHolding from './hands/adult-holding.json' with { type: 'json' };
import centrePull from './hands/centre-pull.json' with { type: 'json' };
import infantNeedleHolding from './hands/infant-needle-holding.json' with { type: 'json' };
import infantThickHolding from './hands/infant-thick-holding.json' with { type: 'json' };
import infantThinHolding from './hands/infant-thin-holding.json' with { type: 'json' };
import tangentPull from './hands/tangent-pull.json' with { type: 'json' };
import infantNeedle from './infant-needle.json' with { type: 'json' };
import infantThickFluid from './infant-thick-fluid.json' with { type: 'json' };
import infantThinFluid from './infant-thin-fluid.json' with { type: 'json' };

/** One shipped file: its id, its name for problem lists, and what it holds, unchecked. */
export interface ShippedFile {
  readonly id: string;
  readonly file: string;
  readonly data: unknown;
}

const shipped = (folder: string) => (data: { readonly id: string }) => ({
  id: data.id,
  file: `${folder}/${data.id}.json`,
  data,
});

/** In the order in which they are offered. */
export const SHIPPED_SCENARIOS: readonly ShippedFile[] = [
  infantThickFluid,
  infantThinFluid,
  infantNeedle,
  adultBaseline,
].map(shipped('scenarios'));

export const SHIPPED_HANDS: readonly ShippedFile[] = [
  infantThickHolding,
  infantThinHolding,
  infantNeedleHolding,
  adultHolding,
  tangentPull,
  centrePull,
].map(shipped('scenarios/hands'));

/** Guided hand that holds the circle in each shipped scenario. */
export const HOLDING_HAND: Readonly<Record<string, string>> = {
  'infant-thick-fluid': 'infant-thick-holding',
  'infant-thin-fluid': 'infant-thin-holding',
  'infant-needle': 'infant-needle-holding',
  'adult-baseline': 'adult-holding',
};
