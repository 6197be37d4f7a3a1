import { useEffect } from 'react';
import { Tour } from '../../app/tour/TourCard.tsx';
import { usePlace } from '../../stores/place-store.ts';
import { SessionOfPlace, useSession } from '../../stores/session-store.ts';
import { SessionVoice } from '../../ui/StageVoice.tsx';
import type { AttemptSession } from './attempt-session.ts';
import { benchSession, takeUpBench } from './bench-errands.ts';
import { EyeCard } from './EyeCard.tsx';
import { Replaying } from './Replaying.tsx';
import { ResultCard } from './ResultCard.tsx';
import { ScenarioChooser } from './ScenarioChooser.tsx';
import { StageView } from './StageView.tsx';
import { Strip } from './Strip.tsx';
import { TipCard } from './TipCard.tsx';
import { useAttemptKeys } from './use-attempt-keys.ts';
import { useFittingCards } from './use-fitting-cards.ts';
import './bench.css';

/** Tear by hand: the stage in the middle, the eye's card at the left, the tip's at the right, the attempt below. */
export function Bench() {
  const session = benchSession();
  useEffect(() => {
    void takeUpBench(session);
    const unasked = usePlace.subscribe(({ errand, place }) => {
      if (errand !== null && place === 'bench') void takeUpBench(session);
    });
    return () => {
      unasked();
      session.leave();
    };
  }, [session]);
  return (
    <SessionOfPlace value={session.store}>
      <OpenBench session={session} />
    </SessionOfPlace>
  );
}

function OpenBench({ session }: { readonly session: AttemptSession }) {
  useAttemptKeys(session);
  useFittingCards();
  const result = useSession((state) => state.result);
  return (
    <div className="bench">
      <EyeCard session={session}>
        <ScenarioChooser session={session} />
      </EyeCard>
      <StageView session={session}>
        <Replaying session={session} />
        <GoesOnFrom />
      </StageView>
      <div className="bench-side">
        <Tour />
        {result === null ? <TipCard /> : <ResultCard session={session} result={result} />}
      </div>
      <Strip session={session} />
      <SessionVoice />
    </div>
  );
}

/** What the attempt in hand goes on from, until its end. */
function GoesOnFrom() {
  const from = useSession((state) => state.goesOnFrom);
  return from === null ? null : (
    <p className="stage-line" data-testid="goes-on-from">
      {from()}
    </p>
  );
}
