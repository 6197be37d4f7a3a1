import type { ReactNode } from 'react';
import { t } from '../i18n/text.ts';
import { PLACES, type PlaceId, usePlace } from '../stores/place-store.ts';
import { useView } from '../stores/view-store.ts';
import { HelpButton } from './help/HelpButton.tsx';
import { PersonPicker } from './PersonPicker.tsx';
import { SettingsButton } from './settings/SettingsButton.tsx';

const line = { fill: 'none', stroke: 'currentColor', strokeWidth: 1.7, strokeLinecap: 'round' as const };

/** A drawing for each place: the tear, a clock, a list, an eye with a gauge. */
const DRAWING: Readonly<Record<PlaceId, ReactNode>> = {
  bench: (
    <>
      <circle cx="12" cy="12" r="8.5" {...line} />
      <path d="M12 12 L20 21 M12 12 L21 18" {...line} />
    </>
  ),
  lecture: (
    <>
      <circle cx="7" cy="13" r="5" {...line} />
      <circle cx="17.5" cy="13" r="5" {...line} />
      <path d="M7 4 H17.5 M7 4 V8 M17.5 4 V8" {...line} />
    </>
  ),
  trial: (
    <>
      <circle cx="12" cy="13" r="7.5" {...line} />
      <path d="M12 13 V8.5 M9.5 3 H14.5" {...line} />
    </>
  ),
  logbook: <path d="M5 4 H19 V20 H5 Z M8.5 8.5 H15.5 M8.5 12 H15.5 M8.5 15.5 H12.5" {...line} />,
  eyes: (
    <>
      <path d="M3 12 Q12 3.5 21 12 Q12 20.5 3 12 Z" {...line} />
      <path d="M12 9 V15 M9 12 H15" {...line} />
    </>
  ),
};

/** The places of the window. Only those that work are shown. */
export function Bar() {
  const theme = useView((state) => state.theme);
  const setTheme = useView((state) => state.setTheme);
  const place = usePlace((state) => state.place);
  const next = theme === 'room' ? 'projector' : 'room';
  return (
    <nav className="bar" aria-label={t('common.bar.places')}>
      <div className="brand" aria-hidden="true" title="Rimward">
        <svg viewBox="0 0 32 32" width="32" height="32" role="presentation">
          <circle cx="16" cy="16" r="13.5" fill="none" stroke="currentColor" strokeWidth="1.6" />
          <path
            d="M 9.5 18.5 A 7 7 0 1 1 22 20 Q 24 23 27.6 24"
            fill="none"
            stroke="currentColor"
            strokeWidth="2.4"
            strokeLinecap="round"
          />
        </svg>
      </div>
      {PLACES.map(({ id, key }) => (
        <a
          key={id}
          className="place-link"
          href={`#${id}`}
          aria-current={id === place ? 'page' : undefined}
          title={t('common.bar.placeKey', { place: t(`common.place.${id}`), key })}
          data-testid={`place-${id}`}
        >
          <svg viewBox="0 0 24 24" width="22" height="22" aria-hidden="true">
            {DRAWING[id]}
          </svg>
          <span>{t(`common.place.${id}`)}</span>
        </a>
      ))}
      <span className="bar-gap" />
      <HelpButton />
      <SettingsButton />
      <PersonPicker />
      <button
        type="button"
        className="bar-button"
        data-testid="theme"
        onClick={() => setTheme(next)}
        title={t('common.bar.look')}
      >
        <svg viewBox="0 0 24 24" width="22" height="22" aria-hidden="true">
          <circle cx="12" cy="12" r="8" fill="none" stroke="currentColor" strokeWidth="1.6" />
          <path d="M12 4 A8 8 0 0 1 12 20 Z" fill="currentColor" />
        </svg>
        <span>{t(theme === 'room' ? 'common.bar.toProjector' : 'common.bar.toRoom')}</span>
      </button>
    </nav>
  );
}
