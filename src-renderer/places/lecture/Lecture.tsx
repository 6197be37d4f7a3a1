import { t } from '../../i18n/text.ts';
import { BoardPanel } from './boards/BoardPanel.tsx';
import { PlotPanel } from './plots/PlotPanel.tsx';
import { useRoom } from './twin/room-store.ts';
import { OverAll, TwinPanel } from './twin/TwinPanel.tsx';
import './lecture.css';

/** Shows a room why an infant's tear runs outward: two eyes, one hand. */
export function Lecture() {
  const textSize = useRoom((state) => state.textSize);
  return (
    <div className="lecture" data-testid="lecture" data-text={textSize}>
      <aside className="lecture-boards" aria-label={t('lecture.place.boards')}>
        <BoardPanel />
      </aside>
      <TwinPanel />
      <OverAll />
      <section className="lecture-plots" aria-label={t('lecture.place.plots')}>
        <PlotPanel />
      </section>
    </div>
  );
}
