import { type CostlyMoment, STEP_S } from '../../../physics/index.ts';
import { momentSentence } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { usePlace } from '../../stores/place-store.ts';
import { useSession } from '../../stores/session-store.ts';
import { clockTime } from '../../ui/format.ts';

/** Steps before a moment from which it is tried again, so that one sees it come: half a second. */
const BEFORE = Math.round(0.5 / STEP_S);

/** The moments that cost the most, each to be tried again from shortly before it. */
export function Moments() {
  const moments = useSession((state) => state.moments);
  const keeping = useSession((state) => state.keeping);
  const id = keeping.state === 'finished' ? keeping.summary.id : null;
  return (
    <section className="moments" aria-label={t('bench.moments.title')} data-testid="moments">
      <h3>{t('bench.moments.title')}</h3>
      {moments.length === 0 ? (
        <p>{t('bench.moments.none')}</p>
      ) : (
        <ol>
          {moments.map((moment) => (
            <Moment key={`${moment.kind}-${moment.from_s}`} moment={moment} id={id} />
          ))}
        </ol>
      )}
    </section>
  );
}

function Moment({ moment, id }: { readonly moment: CostlyMoment; readonly id: string | null }) {
  const step = Math.max(0, Math.round(moment.from_s / STEP_S) - BEFORE);
  return (
    <li>
      <time>{clockTime(moment.from_s)}</time> {momentSentence(moment)}
      {id !== null && (
        <button
          type="button"
          className="small"
          data-testid="try-from-here"
          onClick={() => usePlace.getState().go('bench', `from:${id}:${step}`)}
        >
          {t('bench.moments.try')}
        </button>
      )}
    </li>
  );
}
