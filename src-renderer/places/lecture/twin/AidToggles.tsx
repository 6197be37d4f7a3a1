import { t } from '../../../i18n/text.ts';
import type { LectureAids } from '../contract.ts';
import { useLectureLook } from './twin-store.ts';

/** What can be drawn over both eyes, with the key that turns it on and off. */
export const AIDS: readonly {
  readonly aid: keyof LectureAids;
  readonly key: string;
}[] = [
  { aid: 'arrows', key: '1' },
  { aid: 'safeCone', key: '2' },
  { aid: 'tensionMap', key: '3' },
  { aid: 'principalStrokes', key: '4' },
  { aid: 'polarCurve', key: '5' },
  { aid: 'targetCircle', key: '6' },
  { aid: 'numbers', key: '7' },
];

export const aidLabel = (aid: keyof LectureAids): string => t(`lecture.aids.${aid}.label`);

export function toggleAid(aid: keyof LectureAids): void {
  const { aids, setAids } = useLectureLook.getState();
  setAids({ [aid]: !aids[aid] });
}

/** Turns what is drawn over the eyes on and off. */
export function AidToggles() {
  const aids = useLectureLook((state) => state.aids);
  return (
    <div className="twin-aids" role="toolbar" aria-label={t('lecture.aids.toolbar')}>
      {AIDS.map(({ aid, key }) => (
        <button
          key={aid}
          type="button"
          aria-pressed={aids[aid]}
          onClick={() => toggleAid(aid)}
          title={t('lecture.aids.title', { words: t(`lecture.aids.${aid}.words`), key })}
          data-testid={`lecture-aid-${aid}`}
        >
          <span className="twin-tick" aria-hidden="true">
            {aids[aid] ? '✓' : '○'}
          </span>{' '}
          {aidLabel(aid)}
        </button>
      ))}
    </div>
  );
}
