import type { HandCommand } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { steppedMagnification } from '../../../stage/microscope.ts';
import { number } from '../../../ui/format.ts';
import { magnify } from './magnify.ts';
import { type DrawTool, nextTextSize, useRoom } from './room-store.ts';
import { twinEngine, useLectureLook, useTwin } from './twin-store.ts';

const TOOLS: readonly DrawTool[] = ['pen', 'arrow', 'erase'];

/** What helps to show the eyes to a room. */
export function RoomTools() {
  return (
    <div className="twin-room" role="toolbar" aria-label={t('lecture.room.toolbar')}>
      <AttemptButtons />
      <DrawButtons />
      <LookButtons />
    </div>
  );
}

type Instrument = HandCommand['instrument'];

function AttemptButtons() {
  const instrument = useTwin((state) => state.instrument);
  const live = useTwin((state) => state.setup?.hand.kind === 'live');
  return (
    <>
      <button
        type="button"
        onClick={() => twinEngine.restart()}
        title={t('lecture.room.startOverTitle')}
        data-testid="twin-restart"
      >
        {t('lecture.room.startOver')} <kbd>R</kbd>
      </button>
      <button
        type="button"
        onClick={() => twinEngine.takeOver()}
        disabled={live}
        title={t('lecture.room.takeHandTitle')}
        data-testid="twin-take-over"
      >
        {live ? t('lecture.room.yourHand') : t('lecture.room.takeHand')} <kbd>H</kbd>
      </button>
      {live && (
        <select
          aria-label={t('lecture.room.instrument')}
          title={t('lecture.room.instrumentTitle')}
          value={instrument}
          onChange={(event) => twinEngine.act({ kind: 'take', instrument: event.target.value as Instrument })}
          data-testid="lecture-instrument"
        >
          <option value="forceps">{t('lecture.room.forceps')}</option>
          <option value="needle">{t('lecture.room.needle')}</option>
          <option value="cannula">{t('lecture.room.cannula')}</option>
        </select>
      )}
    </>
  );
}

function DrawButtons() {
  const tool = useRoom((state) => state.tool);
  const shapes = useRoom((state) => state.shapes);
  const past = useRoom((state) => state.past);
  const { setTool, setShapes, undo } = useRoom.getState();
  return (
    <>
      <button
        type="button"
        aria-pressed={tool !== null}
        onClick={() => setTool(tool === null ? 'pen' : null)}
        title={t('lecture.room.drawTitle')}
        data-testid="draw"
      >
        {t('lecture.room.draw')} <kbd>D</kbd>
      </button>
      {tool !== null &&
        TOOLS.map((one) => (
          <button
            key={one}
            type="button"
            aria-pressed={tool === one}
            onClick={() => setTool(one)}
            title={t(`lecture.room.${one}.words`)}
            data-testid={`draw-${one}`}
          >
            {t(`lecture.room.${one}.label`)}
          </button>
        ))}
      {(tool !== null || shapes.length > 0) && (
        <>
          <button
            type="button"
            onClick={undo}
            disabled={past.length === 0}
            title={t('lecture.room.undoTitle')}
            data-testid="draw-undo"
          >
            {t('lecture.room.undo')}
          </button>
          <button
            type="button"
            onClick={() => setShapes([])}
            disabled={shapes.length === 0}
            title={t('lecture.room.clearTitle')}
            data-testid="draw-clear"
          >
            {t('lecture.room.clear')} <kbd>X</kbd>
          </button>
        </>
      )}
    </>
  );
}

function LookButtons() {
  const trail = useRoom((state) => state.trail);
  const textSize = useRoom((state) => state.textSize);
  const magnification = useLectureLook((state) => state.camera.magnification);
  const { setTrail, setBlack } = useRoom.getState();
  return (
    <>
      <button
        type="button"
        aria-pressed={trail}
        onClick={() => setTrail(!trail)}
        title={t('lecture.room.trailTitle')}
        data-testid="trail-toggle"
      >
        {t('lecture.room.trail')} <kbd>T</kbd>
      </button>
      <button type="button" onClick={() => setBlack(true)} title={t('lecture.room.blackTitle')} data-testid="black-out">
        {t('lecture.room.black')} <kbd>B</kbd>
      </button>
      <button type="button" onClick={nextTextSize} title={t('lecture.room.textTitle')} data-testid="text-size">
        {t('lecture.room.text', { size: textSize })} <kbd>A</kbd>
      </button>
      <span className="twin-magnifier">
        <button
          type="button"
          onClick={() => magnify(-1)}
          disabled={steppedMagnification(magnification, -1) === magnification}
          aria-label={t('lecture.room.less')}
          title={t('lecture.room.lessTitle')}
        >
          −
        </button>
        <span data-testid="lecture-magnification">×{number(magnification, 2)}</span>
        <button
          type="button"
          onClick={() => magnify(1)}
          disabled={steppedMagnification(magnification, 1) === magnification}
          aria-label={t('lecture.room.more')}
          title={t('lecture.room.moreTitle')}
          data-testid="lecture-magnify"
        >
          +
        </button>
      </span>
    </>
  );
}
