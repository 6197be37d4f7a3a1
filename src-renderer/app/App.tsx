import { type ComponentType, useEffect } from 'react';
import { TEACHING_CAUTION } from '../../physics/index.ts';
import { useLanguage } from '../i18n/text.ts';
import { Bench } from '../places/bench/Bench.tsx';
import { Eyes } from '../places/eyes/Eyes.tsx';
import { Lecture } from '../places/lecture/Lecture.tsx';
import { Logbook } from '../places/logbook/Logbook.tsx';
import { Trial } from '../places/trial/Trial.tsx';
import { followPlaces, PLACES, type PlaceId, usePlace } from '../stores/place-store.ts';
import { useView } from '../stores/view-store.ts';
import { Bar } from './Bar.tsx';
import { Fence } from './Fence.tsx';
import { Interrupted } from './Interrupted.tsx';

const PLACE: Readonly<Record<PlaceId, ComponentType>> = {
  bench: Bench,
  lecture: Lecture,
  trial: Trial,
  logbook: Logbook,
  eyes: Eyes,
};

/** One window: the bar of places, the place, and the caution that goes with every number about an eye. */
export function App() {
  const theme = useView((state) => state.theme);
  const place = usePlace((state) => state.place);
  // nothing below is memoised, so that drawing the page anew puts all of it into the new language
  useLanguage();
  useEffect(() => {
    document.documentElement.dataset.theme = theme;
  }, [theme]);
  useEffect(followPlaces, []);
  const Place = PLACE[place];
  const label = PLACES.find(({ id }) => id === place)?.label ?? '';
  return (
    <div className="app">
      <Bar />
      <main className="place">
        <h1 className="for-ears">Rimward: {label.toLowerCase()}</h1>
        <Interrupted />
        <div className="place-room">
          <Fence key={place}>
            <Place />
          </Fence>
        </div>
      </main>
      <p className="caution" data-testid="caution">
        {TEACHING_CAUTION}
      </p>
    </div>
  );
}
