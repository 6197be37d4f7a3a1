import { type PointerEvent, useEffect, useRef, useState } from 'react';
import { t } from '../../../i18n/text.ts';
import { type DrawnShape, type OverlaySize, outlineOf, type Share, shapeAt } from './drawn-shapes.ts';
import { useRoom } from './room-store.ts';

let nextId = 1;

/** What is drawn over both eyes. It takes the pointer only while a tool is in hand. */
export function DrawOver() {
  const place = useRef<SVGSVGElement>(null);
  const tool = useRoom((state) => state.tool);
  const shapes = useRoom((state) => state.shapes);
  const size = useSize(place);
  const [drawn, setDrawn] = useState<DrawnShape | null>(null);

  const at = (event: PointerEvent): Share => {
    const box = event.currentTarget.getBoundingClientRect();
    return [(event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height];
  };
  const erase = (event: PointerEvent) => {
    const { shapes: present, setShapes } = useRoom.getState();
    const hit = shapeAt(present, at(event), size);
    if (hit !== null) setShapes(present.filter(({ id }) => id !== hit.id));
  };
  const down = (event: PointerEvent) => {
    if (tool === null || event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    if (tool === 'erase') return erase(event);
    const from = at(event);
    setDrawn(
      tool === 'pen' ? { id: nextId, kind: 'pen', points: [from] } : { id: nextId, kind: 'arrow', from, to: from },
    );
    nextId += 1;
  };
  const move = (event: PointerEvent) => {
    if (tool === 'erase' && event.buttons === 1) return erase(event);
    if (drawn === null) return;
    const to = at(event);
    setDrawn(drawn.kind === 'pen' ? { ...drawn, points: [...drawn.points, to] } : { ...drawn, to });
  };
  const up = () => {
    if (drawn === null) return;
    if (outlineOf(drawn, size) !== '') useRoom.getState().setShapes([...useRoom.getState().shapes, drawn]);
    setDrawn(null);
  };
  return (
    <svg
      ref={place}
      className="twin-drawing"
      data-tool={tool ?? undefined}
      data-testid="drawing"
      data-shapes={shapes.length}
      aria-label={t('lecture.drawing.name', { count: shapes.length })}
      role="img"
      onPointerDown={down}
      onPointerMove={move}
      onPointerUp={up}
      onPointerCancel={up}
    >
      {[...shapes, ...(drawn === null ? [] : [drawn])].map((shape) => (
        <path key={shape.id} d={outlineOf(shape, size)} className="twin-drawn" />
      ))}
    </svg>
  );
}

function useSize(place: { readonly current: SVGSVGElement | null }): OverlaySize {
  const [size, setSize] = useState<OverlaySize>({ width_px: 1000, height_px: 500 });
  useEffect(() => {
    const element = place.current;
    if (element === null) return;
    const sizes = new ResizeObserver(() => {
      const box = element.getBoundingClientRect();
      setSize({ width_px: Math.max(1, box.width), height_px: Math.max(1, box.height) });
    });
    sizes.observe(element);
    return () => sizes.disconnect();
  }, [place]);
  return size;
}
