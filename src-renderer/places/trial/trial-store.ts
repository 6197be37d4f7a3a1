import { create } from 'zustand';
import type { Scenario } from '../../../physics/index.ts';
import { AttemptSession } from '../bench/attempt-session.ts';

/** Counted down before time runs. */
export const COUNTDOWN_s = 3;

export type TrialPhase = 'choosing' | 'counting' | 'working' | 'ended';

interface TrialState {
  readonly phase: TrialPhase;
  /** What is looked at while choosing, and what is worked on then. */
  readonly scenario: Scenario | null;
  /** One attempt; another trial gets another. */
  readonly session: AttemptSession | null;
}

/** One trial at a time. It outlives a visit to another place only once it has ended. */
export const useTrial = create<TrialState>(() => ({ phase: 'choosing', scenario: null, session: null }));

export const lookAt = (scenario: Scenario): void => useTrial.setState({ scenario });

/** Makes the eye ready and counts down. */
export function startTrial(scenario: Scenario): void {
  useTrial.getState().session?.close();
  const session = new AttemptSession('trial');
  useTrial.setState({ phase: 'counting', scenario, session });
  session.store.subscribe(({ result }) => {
    if (result === null || useTrial.getState().session !== session) return;
    if (useTrial.getState().phase === 'working') useTrial.setState({ phase: 'ended' });
  });
  session.choose(scenario);
}

/** The countdown is over. */
export function runTrial(): void {
  const { phase, session } = useTrial.getState();
  if (phase !== 'counting' || session === null) return;
  useTrial.setState({ phase: 'working' });
  session.begin();
}

/** Back to choosing; nothing has been asked of the eye yet, or all of it is kept. */
export function closeTrial(): void {
  useTrial.getState().session?.close();
  useTrial.setState({ phase: 'choosing', session: null });
}
