/**
 * The driving force by direction at the moment shown: asked of both eyes once the motion rests, kept by moment, and taken
 * back when the moment moves on.
 */
import { create } from 'zustand';
import type { PolarAnswer } from '../../../worker/twin-messages.ts';
import { SIDES, type SideId, type TwinState } from '../contract.ts';

/** `off`: not wanted. `moving`: it is computed once the motion rests. */
export type PolarShown = 'off' | 'moving' | 'computing' | PolarAnswer;

export const usePolar = create<Readonly<Record<SideId, PolarShown>>>(() => ({ left: 'off', right: 'off' }));

/** So long a moment has to stand before a second of computing goes into it, ms. Our choice. */
const RESTS_ms = 250;
/** Moments kept; a curve is small, so this is only a bound. */
const MOST_KEPT = 400;

const kept = new Map<string, PolarAnswer>();
const keyOf = (run: number, step: number, side: SideId): string => `${run} ${step} ${side}`;

/** The moment that is looked at or waited for. */
let wanted: { readonly run: number; readonly step: number } | null = null;
let due: ReturnType<typeof setTimeout> | undefined;

/** What an eye has answered. Kept whether or not it is still wanted; shown when it is. */
export function takePolar(side: SideId, run: number, step: number, answer: PolarAnswer): void {
  if (kept.size >= MOST_KEPT) kept.delete(kept.keys().next().value ?? '');
  kept.set(keyOf(run, step, side), answer);
  if (wanted?.run === run && wanted.step === step) usePolar.setState({ [side]: answer });
}

/** Whether the motion rests at the moment shown. */
const rests = ({ left, playing, held }: TwinState): boolean => left?.view != null && (!playing || held);

interface PolarEyes {
  readonly run: number;
  askPolar(step: number | null): void;
}

/** Looks at what is shown now: to be called on every change of the pair or of what is drawn over it. */
export function followPolar(twin: TwinState, isOn: boolean, eyes: PolarEyes): void {
  const { run } = eyes;
  const { step } = twin;
  if (isOn && rests(twin)) {
    if (wanted?.run !== run || wanted.step !== step) want(run, step, eyes);
    return;
  }
  if (wanted !== null) takeBack(eyes);
  const shown = isOn ? 'moving' : 'off';
  const { left, right } = usePolar.getState();
  if (left !== shown || right !== shown) usePolar.setState({ left: shown, right: shown });
}

function want(run: number, step: number, eyes: PolarEyes): void {
  takeBack(eyes);
  wanted = { run, step };
  const known = SIDES.map((side) => kept.get(keyOf(run, step, side)));
  usePolar.setState({ left: known[0] ?? 'computing', right: known[1] ?? 'computing' });
  if (known.some((answer) => answer === undefined)) due = setTimeout(() => eyes.askPolar(step), RESTS_ms);
}

function takeBack(eyes: PolarEyes): void {
  clearTimeout(due);
  if (wanted !== null && wanted.run === eyes.run) eyes.askPolar(null);
  wanted = null;
}
