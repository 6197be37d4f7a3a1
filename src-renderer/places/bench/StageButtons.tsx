import { useSession } from '../../stores/session-store.ts';
import { useView } from '../../stores/view-store.ts';
import { number } from '../../ui/format.ts';
import type { AttemptSession } from './attempt-session.ts';
import { magnify } from './use-attempt-keys.ts';

const RAISE_mm = 0.1;

/** What a touch screen has no wheel or key for: magnify, raise, lower, fold. */
export function StageButtons({ session }: { readonly session: AttemptSession }) {
  const magnification = useView((state) => state.magnification);
  const lift_mm = useSession((state) => state.hand.lift_mm);
  return (
    <div className="stage-buttons" role="toolbar" aria-label="Microscope and hand">
      <button type="button" onClick={() => magnify(-1)} aria-label="Magnify less" title="Magnify less (−)">
        −
      </button>
      <button type="button" onClick={() => magnify(0)} title="Back to the whole eye (0)" data-testid="magnification">
        ×{number(magnification, 2)}
      </button>
      <button type="button" onClick={() => magnify(1)} aria-label="Magnify more" title="Magnify more (+)">
        +
      </button>
      <span className="gap" />
      <button
        type="button"
        onClick={() => session.act({ kind: 'raise', by_mm: -RAISE_mm })}
        aria-label="Lower the tip"
        title="Lower the tip (wheel, Page down)"
      >
        ▼
      </button>
      <output aria-label="Height of the tip asked for" title="Height asked for">
        {number(lift_mm, 1)} mm
      </output>
      <button
        type="button"
        onClick={() => session.act({ kind: 'raise', by_mm: RAISE_mm })}
        aria-label="Raise the tip"
        title="Raise the tip (wheel, Page up)"
      >
        ▲
      </button>
      <button type="button" onClick={() => session.act({ kind: 'fold' })} title="Fold the held flap flat (F)">
        Fold
      </button>
    </div>
  );
}
