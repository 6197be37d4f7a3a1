import { type ReactNode, useContext, useEffect, useState } from 'react';
import { Trans } from 'react-i18next';
import { t } from '../../i18n/text.ts';
import { SessionOfPlace, type SessionState, useSession } from '../../stores/session-store.ts';
import { number, quantity } from '../../ui/format.ts';
import { hintOf, NEAR_mm, stepOf, TO_TEAR_deg, TOUR_STEPS, type TourHint, type TourSight } from './tour-steps.ts';
import { followTour, offerTourOnce, openTourEye, skipStep, startTour, stopTour, useTour } from './tour-store.ts';
import './tour.css';

/** A reason must have held for this long before it is said, ms, so that neither eye nor ear is flooded. */
const SAID_AFTER_ms = 700;
const MARKS = { b: <b />, kbd: <kbd /> };

const sightOf = (session: SessionState): TourSight => ({
  attempt: session.attempt,
  view: session.view,
  events: session.events,
  paused: session.paused,
  result: session.result,
  instrument: session.hand.instrument,
  start: session.scenario?.start.kind ?? null,
  centre_mm: session.geometry?.target.centre_mm ?? [0, 0],
});

/** The tour of five steps beside the tear; nothing while there is none. */
export function Tour() {
  const store = useContext(SessionOfPlace);
  const state = useTour((tour) => tour.state);
  useEffect(() => {
    void offerTourOnce();
  }, []);
  useEffect(() => {
    if (state === 'off' || store === null) return;
    followTour(sightOf(store.getState()));
    return store.subscribe((session) => followTour(sightOf(session)));
  }, [state, store]);
  if (state === 'off') return null;
  return state === 'offered' ? <Offer /> : <RunningTour />;
}

function TourCard({ children }: { readonly children: ReactNode }) {
  return (
    <section className="tour" aria-label={t('bench.tour.name')} data-testid="tour">
      {children}
    </section>
  );
}

function Offer() {
  return (
    <TourCard>
      <p role="status">{t('bench.tour.offer')}</p>
      <div className="buttons">
        <button type="button" className="first" data-testid="tour-start" onClick={startTour}>
          {t('bench.tour.start')}
        </button>
        <button type="button" data-testid="tour-decline" onClick={stopTour}>
          {t('bench.tour.decline')}
        </button>
      </div>
    </TourCard>
  );
}

function RunningTour() {
  const progress = useTour((tour) => tour.progress);
  const sight = sightOf(useSession((all) => all));
  const step = stepOf(progress);
  const hint = hintOf(progress, sight);
  const said = useSteady(hint?.kind ?? null);
  if (step === null) return <Over />;
  return (
    <TourCard>
      <div aria-live="polite" data-testid="tour-step" data-step={step}>
        <p className="tour-count">{t('bench.tour.count', { at: progress.at + 1, of: TOUR_STEPS.length })}</p>
        <h2>{t(`bench.tour.${step}.title`)}</h2>
        <p>
          <Trans i18nKey={`bench.tour.${step}.what`} components={MARKS} values={{ near: quantity(NEAR_mm, 1, 'mm') }} />
        </p>
        {said !== null && (
          <p className="tour-why" data-testid="tour-why" data-why={said}>
            <Trans i18nKey={`bench.tour.why.${said}`} components={MARKS} />
          </p>
        )}
      </div>
      {step === 'pull' && <p className="tour-figure">{tornWords(progress.torn_deg)}</p>}
      {hint !== null && hint.kind === said && <Figure hint={hint} />}
      <div className="buttons">
        {said === 'otherEye' && (
          <button type="button" className="first" onClick={openTourEye}>
            {t('bench.tour.openEye')}
          </button>
        )}
        <button type="button" data-testid="tour-skip" onClick={() => skipStep(sight.events)}>
          {t('bench.tour.skip')}
        </button>
        <button type="button" data-testid="tour-stop" onClick={stopTour}>
          {t('bench.tour.stop')}
        </button>
      </div>
    </TourCard>
  );
}

function Over() {
  return (
    <TourCard>
      <div role="status" data-testid="tour-over">
        <h2>{t('bench.tour.over.title')}</h2>
        <p>
          <Trans i18nKey="bench.tour.over.what" components={MARKS} />
        </p>
      </div>
      <div className="buttons">
        <button type="button" className="first" data-testid="tour-close" onClick={stopTour}>
          {t('bench.tour.close')}
        </button>
      </div>
    </TourCard>
  );
}

const tornWords = (torn_deg: number): string =>
  t('bench.tour.torn', { torn: number(Math.abs(torn_deg), 0), all: number(TO_TEAR_deg, 0) });

/** The number behind a reason. Not spoken: it changes ten times a second. */
function Figure({ hint }: { readonly hint: TourHint }) {
  const text = figureOf(hint);
  return text === null ? null : <p className="tour-figure">{text}</p>;
}

function figureOf(hint: TourHint): string | null {
  if (hint.kind === 'outward') return t('bench.tour.figure.outward', { turn: quantity(hint.outward_deg, 0, '°') });
  if (hint.kind === 'far') return t('bench.tour.figure.far', { distance: quantity(hint.distance_mm, 1, 'mm') });
  return null;
}

/** The value once it has held for a while. */
function useSteady<T>(value: T): T {
  const [steady, setSteady] = useState(value);
  useEffect(() => {
    const timer = window.setTimeout(() => setSteady(value), SAID_AFTER_ms);
    return () => window.clearTimeout(timer);
  }, [value]);
  return steady;
}
