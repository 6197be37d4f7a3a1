import { useRef } from 'react';
import type { Vec2 } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import type { Photo } from './open-photo.ts';
import { PhotoMark, type PhotoMarkProps } from './PhotoMark.tsx';
import { centreOf, type MarkName, type PhotoMarks } from './photo-marks.ts';
import { toFrame } from './photo-view.ts';
import { usePhotoKeys, usePhotoPointer } from './use-photo-hands.ts';
import { usePhotoView, ZOOM_STEP } from './use-photo-view.ts';

export interface PhotoBoardProps {
  readonly photo: Photo;
  readonly marks: PhotoMarks;
  /** A place was clicked or chosen by key, in pixels of the photograph; `reach_px` is how near counts as on it. */
  onPlace(at: Vec2, reach_px: number): void;
  onMove(name: MarkName, to: Vec2): void;
  /** A move has come to its end. */
  onMoved(): void;
  onRemove(name: MarkName): void;
}

/** The photograph with what is marked on it. Wheel or keys zoom, a drag on the picture moves it, a click places a mark. */
export function PhotoBoard(props: PhotoBoardProps) {
  const { photo, marks } = props;
  const element = useRef<SVGSVGElement>(null);
  const look = usePhotoView(photo, element);
  const pointer = usePhotoPointer(props, look, element);
  const keys = usePhotoKeys(props, look);
  const { view } = look;
  const at = (place: Vec2): Vec2 => toFrame(view, place);
  const corner = at([0, 0]);
  const mark = (name: MarkName, label: string, place: Vec2): PhotoMarkProps => ({
    name,
    label,
    place,
    at: at(place),
    zoom: view.zoom,
    board: props,
    onPress: pointer.pressed,
  });
  const centre = centreOf(marks);
  return (
    <div className="photo-board">
      <svg
        ref={element}
        className="photo-frame"
        data-testid="photo-board"
        data-zoom={view.zoom}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the board is worked by keyboard too
        tabIndex={0}
        role="application"
        aria-label={t('logbook.outside.board')}
        onPointerDown={(event) => pointer.pressed(event, null)}
        onPointerMove={pointer.dragged}
        onPointerUp={pointer.released}
        onPointerCancel={pointer.dropped}
        onKeyDown={keys.keyed}
        onBlur={keys.left}
      >
        <image
          href={photo.url}
          x={corner[0]}
          y={corner[1]}
          width={photo.width * view.zoom}
          height={photo.height * view.zoom}
        />
        <MarkLines marks={marks} at={at} cross={keys.cross} />
        {marks.margin_px.map((place, index) => {
          const name = { of: 'margin', index } as const;
          const label = t('logbook.outside.marginPoint', { n: index + 1, of: marks.margin_px.length });
          return <PhotoMark key={`margin-${index}`} {...mark(name, label, place)} />;
        })}
        {marks.ends_px.map((place, index) => {
          const label = t('logbook.outside.endPoint', { n: index + 1 });
          return <PhotoMark key={`end-${index}`} {...mark({ of: 'end', index }, label, place)} />;
        })}
        {centre !== null && <PhotoMark {...mark({ of: 'centre' }, t('logbook.outside.centrePoint'), centre)} />}
      </svg>
      <div className="photo-zoom">
        <button type="button" onClick={() => look.zoomBy(ZOOM_STEP)} aria-label={t('logbook.outside.zoomIn')}>
          +
        </button>
        <button type="button" onClick={() => look.zoomBy(1 / ZOOM_STEP)} aria-label={t('logbook.outside.zoomOut')}>
          −
        </button>
        <button type="button" onClick={look.showAll}>
          {t('logbook.outside.showAll')}
        </button>
      </div>
    </div>
  );
}

/** The known length, the margin so far and the crosshair. */
function MarkLines({
  marks,
  at,
  cross,
}: {
  readonly marks: PhotoMarks;
  readonly at: (place: Vec2) => Vec2;
  readonly cross: Vec2 | null;
}) {
  const line = (places: readonly Vec2[]): string => `M${places.map((place) => at(place).join()).join('L')}`;
  const { ends_px, margin_px } = marks;
  return (
    <>
      {ends_px.length === 2 && <TwoTone d={line(ends_px)} />}
      {margin_px.length > 1 && <TwoTone d={`${line(margin_px)}${margin_px.length > 2 ? 'Z' : ''}`} strong />}
      {cross !== null && <TwoTone d={`M${cross[0] - 14} ${cross[1]}h28M${cross[0]} ${cross[1] - 14}v28`} />}
    </>
  );
}

/** A line that is seen on any picture: light on dark. */
function TwoTone({ d, strong = false }: { readonly d: string; readonly strong?: boolean }) {
  return (
    <>
      <path className="photo-line-under" d={d} />
      <path className={strong ? 'photo-line photo-line-strong' : 'photo-line'} d={d} />
    </>
  );
}
