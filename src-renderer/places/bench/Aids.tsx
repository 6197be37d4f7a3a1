import { t } from '../../i18n/text.ts';
import { useSession } from '../../stores/session-store.ts';
import { type Aid, useView } from '../../stores/view-store.ts';
import { offersAid, shownAids } from './shown-aids.ts';

const AIDS: readonly Aid[] = ['pull', 'sheet', 'resultant', 'targetCircle'];

/** What stands for an aid beside its name: the letter of its arrow on the stage. */
const markOf = (aid: Aid): string => (aid === 'targetCircle' ? '◌' : t(`bench.stage.letter.${aid}`));

/** What the stage shows beside the eye. In a trial it is fixed. */
export function Aids() {
  const wanted = useView((state) => state.aids);
  const setAid = useView((state) => state.setAid);
  const scenario = useSession((state) => state.scenario);
  const place = useSession((state) => state.place);
  const shown = shownAids({ scenario, place }, wanted);
  return (
    <fieldset className="choice aids">
      <legend>{place === 'trial' ? t('bench.aids.fixed') : t('bench.aids.legend')}</legend>
      {AIDS.map((aid) => {
        const offered = offersAid(scenario, aid);
        const label = t(`bench.aids.${aid}`);
        return (
          <label key={aid} className={`aid aid-${aid}`}>
            <input
              type="checkbox"
              checked={shown[aid]}
              disabled={place === 'trial' || !offered}
              onChange={(event) => setAid(aid, event.target.checked)}
              data-testid={`aid-${aid}`}
            />
            <span className="aid-mark" aria-hidden="true">
              {markOf(aid)}
            </span>
            <span>{offered ? label : t('bench.aids.off', { aid: label })}</span>
          </label>
        );
      })}
    </fieldset>
  );
}
