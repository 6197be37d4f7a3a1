import { useEffect } from 'react';
import { TEACHING_CAUTION } from '../../physics/index.ts';
import { Bench } from '../places/bench/Bench.tsx';
import { useView } from '../stores/view-store.ts';
import { Bar } from './Bar.tsx';
import { Fence } from './Fence.tsx';

/** One window: the bar of places, the place, and the caution that goes with every number about an eye. */
export function App() {
  const theme = useView((state) => state.theme);
  useEffect(() => {
    document.documentElement.dataset.theme = theme;
  }, [theme]);
  return (
    <div className="app">
      <Bar />
      <main className="place">
        <h1 className="for-ears">Rimward: bench</h1>
        <Fence>
          <Bench />
        </Fence>
      </main>
      <p className="caution" data-testid="caution">
        {TEACHING_CAUTION}
      </p>
    </div>
  );
}
