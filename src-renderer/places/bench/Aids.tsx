import { useSession } from '../../stores/session-store.ts';
import { type Aid, useView } from '../../stores/view-store.ts';
import { offersAid, shownAids } from './shown-aids.ts';

const AIDS: readonly { readonly aid: Aid; readonly label: string; readonly mark: string }[] = [
  { aid: 'pull', label: 'Pull', mark: 'P' },
  { aid: 'sheet', label: 'Sheet', mark: 'S' },
  { aid: 'resultant', label: 'Resultant', mark: 'R' },
  { aid: 'targetCircle', label: 'Line', mark: '◌' },
];

/** What the stage shows beside the eye. In a trial it is fixed. */
export function Aids() {
  const wanted = useView((state) => state.aids);
  const setAid = useView((state) => state.setAid);
  const scenario = useSession((state) => state.scenario);
  const place = useSession((state) => state.place);
  const shown = shownAids({ scenario, place }, wanted);
  return (
    <fieldset className="choice aids">
      <legend>{place === 'trial' ? 'Shown on the stage, fixed in a trial' : 'Show on the stage'}</legend>
      {AIDS.map(({ aid, label, mark }) => {
        const offered = offersAid(scenario, aid);
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
              {mark}
            </span>
            <span>
              {label}
              {offered ? '' : ' (off here)'}
            </span>
          </label>
        );
      })}
    </fieldset>
  );
}
