import type { KeyboardEvent, PointerEvent } from 'react';
import type { Vec2 } from '../../../../physics/index.ts';
import type { PhotoBoardProps } from './PhotoBoard.tsx';
import type { MarkName } from './photo-marks.ts';
import { ARROWS, withinPhoto } from './use-photo-hands.ts';

export interface PhotoMarkProps {
  readonly name: MarkName;
  /** What it is and which keys work on it. */
  readonly label: string;
  /** In the frame, screen pixels. */
  readonly at: Vec2;
  /** On the photograph, its pixels. */
  readonly place: Vec2;
  readonly zoom: number;
  readonly board: PhotoBoardProps;
  onPress(event: PointerEvent, name: MarkName): void;
}

/** One mark on the photograph: dragged by pointer; by keyboard moved with the arrows and taken away with Delete. */
export function PhotoMark({ name, label, at, place, zoom, board, onPress }: PhotoMarkProps) {
  const keyed = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const move = ARROWS[event.key];
    if (event.key === 'Delete' || event.key === 'Backspace') board.onRemove(name);
    else if (move !== undefined) {
      const step = (event.shiftKey ? 10 : 1) / zoom;
      board.onMove(name, withinPhoto([place[0] + move[0] * step, place[1] + move[1] * step], board.photo));
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  const [x, y] = at;
  const testid = name.of === 'centre' ? 'mark-centre' : `mark-${name.of}-${name.index}`;
  return (
    // biome-ignore lint/a11y/useSemanticElements: SVG has no button of its own
    <g
      className={`photo-mark photo-mark-${name.of}`}
      data-testid={testid}
      role="button"
      tabIndex={0}
      aria-label={label}
      onPointerDown={(event) => onPress(event, name)}
      onDoubleClick={() => board.onRemove(name)}
      onKeyDown={keyed}
      onBlur={board.onMoved}
    >
      <circle className="photo-mark-reach" cx={x} cy={y} r={11} />
      {name.of === 'margin' && <circle className="photo-mark-shape" cx={x} cy={y} r={4} />}
      {name.of === 'end' && <rect className="photo-mark-shape" x={x - 5} y={y - 5} width={10} height={10} />}
      {name.of === 'centre' && (
        <path className="photo-mark-shape" d={`M${x - 9} ${y}H${x + 9}M${x} ${y - 9}V${y + 9}`} />
      )}
    </g>
  );
}
