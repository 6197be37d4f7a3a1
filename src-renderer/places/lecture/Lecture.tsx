import { BoardPanel } from './boards/BoardPanel.tsx';
import { ExportPanel } from './exports/ExportPanel.tsx';
import { PlotPanel } from './plots/PlotPanel.tsx';
import { TwinPanel } from './twin/TwinPanel.tsx';

/** Shows a room why an infant's tear runs outward: two eyes, one hand. */
export function Lecture() {
  return (
    <div className="lecture" data-testid="lecture">
      <BoardPanel />
      <TwinPanel />
      <PlotPanel />
      <ExportPanel />
    </div>
  );
}
