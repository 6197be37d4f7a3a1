import type { LectureAids } from '../contract.ts';
import { useLectureLook } from './twin-store.ts';

/** What can be drawn over both eyes, with the key that turns it on and off. */
export const AIDS: readonly {
  readonly aid: keyof LectureAids;
  readonly key: string;
  readonly label: string;
  readonly words: string;
}[] = [
  { aid: 'arrows', key: '1', label: 'Arrows', words: 'Pull, sheet and resultant at the tip of the tear' },
  {
    aid: 'safeCone',
    key: '2',
    label: 'Safe pulls',
    words: 'Directions in which the present pull does not let the tear turn outward',
  },
  { aid: 'tensionMap', key: '3', label: 'Tension', words: 'Tension of the capsule as a colour' },
  {
    aid: 'principalStrokes',
    key: '4',
    label: 'Lines of tension',
    words: 'Direction in which the capsule is pulled most',
  },
  { aid: 'polarCurve', key: '5', label: 'Driving force', words: 'Driving force in each direction round the tip' },
  { aid: 'targetCircle', key: '6', label: 'Line to follow', words: 'The circle that the tear should follow' },
  { aid: 'numbers', key: '7', label: 'Numbers', words: 'Forces and directions in numbers' },
];

export function toggleAid(aid: keyof LectureAids): void {
  const { aids, setAids } = useLectureLook.getState();
  setAids({ [aid]: !aids[aid] });
}

/** Turns what is drawn over the eyes on and off. */
export function AidToggles() {
  const aids = useLectureLook((state) => state.aids);
  return (
    <div className="twin-aids" role="toolbar" aria-label="Show on both eyes">
      {AIDS.map(({ aid, key, label, words }) => (
        <button
          key={aid}
          type="button"
          aria-pressed={aids[aid]}
          onClick={() => toggleAid(aid)}
          title={`${words} (${key})`}
          data-testid={`lecture-aid-${aid}`}
        >
          <span className="twin-tick" aria-hidden="true">
            {aids[aid] ? '✓' : '○'}
          </span>{' '}
          {label}
        </button>
      ))}
    </div>
  );
}
