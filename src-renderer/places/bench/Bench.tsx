import { useEffect, useState } from 'react';
import { useSession } from '../../stores/session-store.ts';
import { fitCards, useView } from '../../stores/view-store.ts';
import { BenchSession } from './bench-session.ts';
import { EyeCard } from './EyeCard.tsx';
import { ResultCard } from './ResultCard.tsx';
import { StageView } from './StageView.tsx';
import { Strip } from './Strip.tsx';
import { TipCard } from './TipCard.tsx';
import { useBenchKeys } from './use-bench-keys.ts';
import './bench.css';

/** Tear by hand: the stage in the middle, the eye's card at the left, the tip's at the right, the attempt below. */
export function Bench() {
  const [session, setSession] = useState<BenchSession | null>(null);
  useEffect(() => {
    const made = new BenchSession();
    setSession(made);
    return () => made.close();
  }, []);
  const theme = useView((state) => state.theme);
  useEffect(() => {
    let width = 0;
    const fit = () => {
      // a change of height alone, as by an on-screen keyboard, leaves the cards as they are
      if (window.innerWidth !== width) fitCards(window.innerWidth, theme);
      width = window.innerWidth;
    };
    fit();
    window.addEventListener('resize', fit);
    return () => window.removeEventListener('resize', fit);
  }, [theme]);
  return session === null ? null : <OpenBench session={session} />;
}

function OpenBench({ session }: { readonly session: BenchSession }) {
  useBenchKeys(session);
  const result = useSession((state) => state.result);
  return (
    <div className="bench">
      <EyeCard session={session} />
      <StageView session={session} />
      {result === null ? <TipCard /> : <ResultCard session={session} result={result} />}
      <Strip session={session} />
    </div>
  );
}
