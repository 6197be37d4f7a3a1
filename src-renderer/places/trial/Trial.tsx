import { useEffect } from 'react';
import { usePlace } from '../../stores/place-store.ts';
import { SessionOfPlace } from '../../stores/session-store.ts';
import { scenarioById } from '../bench/scenario-store.ts';
import { ChooseTrial } from './ChooseTrial.tsx';
import { TrialAtWork } from './TrialAtWork.tsx';
import { TrialResult } from './TrialResult.tsx';
import { closeTrial, lookAt, useTrial } from './trial-store.ts';
import './trial.css';

/** Self-assessment: a chosen scenario under its own rules, one attempt, scored and kept. */
export function Trial() {
  const phase = useTrial((state) => state.phase);
  const session = useTrial((state) => state.session);
  useEffect(() => {
    const errand = usePlace.getState().takeErrand();
    const asked = errand?.startsWith('scenario:') === true ? scenarioById(errand.slice('scenario:'.length)) : null;
    if (asked !== null) {
      if (useTrial.getState().phase === 'ended') closeTrial();
      lookAt(asked);
    }
    return () => {
      // a countdown does not go on behind another place
      if (useTrial.getState().phase === 'counting') closeTrial();
    };
  }, []);
  if (phase === 'choosing' || session === null) return <ChooseTrial />;
  return (
    <SessionOfPlace value={session.store}>
      {phase === 'ended' ? <TrialResult session={session} /> : <TrialAtWork session={session} />}
    </SessionOfPlace>
  );
}
