import { t } from '../../i18n/text.ts';
import { useSession } from '../../stores/session-store.ts';
import { useView } from '../../stores/view-store.ts';
import { number, quantity } from '../../ui/format.ts';
import type { AttemptSession } from './attempt-session.ts';
import { magnify } from './use-attempt-keys.ts';

const RAISE_mm = 0.1;

/** What a touch screen has no wheel or key for: magnify, raise, lower, fold. */
export function StageButtons({ session }: { readonly session: AttemptSession }) {
  const magnification = useView((state) => state.magnification);
  const lift_mm = useSession((state) => state.hand.lift_mm);
  return (
    <div className="stage-buttons" role="toolbar" aria-label={t('bench.buttons.toolbar')}>
      <button
        type="button"
        onClick={() => magnify(-1)}
        aria-label={t('bench.buttons.less')}
        title={t('bench.buttons.lessKey')}
      >
        −
      </button>
      <button type="button" onClick={() => magnify(0)} title={t('bench.buttons.whole')} data-testid="magnification">
        ×{number(magnification, 2)}
      </button>
      <button
        type="button"
        onClick={() => magnify(1)}
        aria-label={t('bench.buttons.more')}
        title={t('bench.buttons.moreKey')}
      >
        +
      </button>
      <span className="gap" />
      <button
        type="button"
        onClick={() => session.act({ kind: 'raise', by_mm: -RAISE_mm })}
        aria-label={t('bench.buttons.lower')}
        title={t('bench.buttons.lowerKey')}
      >
        ▼
      </button>
      <output aria-label={t('bench.buttons.height')} title={t('bench.buttons.height')}>
        {quantity(lift_mm, 1, 'mm')}
      </output>
      <button
        type="button"
        onClick={() => session.act({ kind: 'raise', by_mm: RAISE_mm })}
        aria-label={t('bench.buttons.raise')}
        title={t('bench.buttons.raiseKey')}
      >
        ▲
      </button>
      <button type="button" onClick={() => session.act({ kind: 'fold' })} title={t('bench.buttons.foldKey')}>
        {t('bench.buttons.fold')}
      </button>
    </div>
  );
}
