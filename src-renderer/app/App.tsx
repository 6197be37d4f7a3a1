import { type ComponentType, useEffect } from 'react';
import { t, useLanguage } from '../i18n/text.ts';
import { Bench } from '../places/bench/Bench.tsx';
import { Eyes } from '../places/eyes/Eyes.tsx';
import { Lecture } from '../places/lecture/Lecture.tsx';
import { Logbook } from '../places/logbook/Logbook.tsx';
import { Trial } from '../places/trial/Trial.tsx';
import { followPlaces, type PlaceId, usePlace } from '../stores/place-store.ts';
import { useView } from '../stores/view-store.ts';
import { Bar } from './Bar.tsx';
import { Fence } from './Fence.tsx';
import { PadLine } from './hands/PadLine.tsx';
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
  const place = usePlace((state) => state.place);
  // nothing below is memoised, so that drawing the page anew puts all of it into the new language
  const language = useLanguage((state) => state.language);
  useLook();
  useEffect(followPlaces, []);
  const Place = PLACE[place];
  return (
    <div className="app">
      <Bar />
      <PadLine />
      <main className="place">
        <h1 className="for-ears">
          {t('common.heading', { place: t(`common.place.${place}`).toLocaleLowerCase(language) })}
        </h1>
        <Interrupted />
        <div className="place-room">
          <Fence key={place}>
            <Place />
          </Fence>
        </div>
      </main>
      <p className="caution" data-testid="caution">
        {t('common.caution')}
      </p>
    </div>
  );
}

/** The root of the page wears what this person chose to see. */
function useLook(): void {
  const theme = useView((state) => state.theme);
  const textSize = useView((state) => state.textSize);
  const motion = useView((state) => state.motion);
  useEffect(() => {
    const root = document.documentElement;
    root.dataset.theme = theme;
    root.dataset.motion = motion;
    root.style.setProperty('--text-scale', String(textSize));
    root.dataset.textSize = String(textSize);
  }, [theme, textSize, motion]);
}
