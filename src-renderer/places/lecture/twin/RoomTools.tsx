import type { HandCommand } from '../../../../physics/index.ts';
import { steppedMagnification } from '../../../stage/microscope.ts';
import { number } from '../../../ui/format.ts';
import { magnify } from './magnify.ts';
import { type DrawTool, nextTextSize, useRoom } from './room-store.ts';
import { twinEngine, useLectureLook, useTwin } from './twin-store.ts';

const TOOLS: readonly { readonly tool: DrawTool; readonly label: string; readonly words: string }[] = [
  { tool: 'pen', label: 'Pen', words: 'Draw freely over the eyes' },
  { tool: 'arrow', label: 'Arrow', words: 'Draw an arrow: press where it begins, let go where it points' },
  { tool: 'erase', label: 'Erase', words: 'Press on what is drawn to take it away' },
];

/** What helps to show the eyes to a room. */
export function RoomTools() {
  return (
    <div className="twin-room" role="toolbar" aria-label="For the room">
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
        title="Both eyes from the start (R)"
        data-testid="twin-restart"
      >
        Start over <kbd>R</kbd>
      </button>
      <button
        type="button"
        onClick={() => twinEngine.takeOver()}
        disabled={live}
        title="Go on from this moment with your own hand: press on either eye to take hold, move to pull (H)"
        data-testid="twin-take-over"
      >
        {live ? 'Your hand' : 'Take the hand'} <kbd>H</kbd>
      </button>
      {live && (
        <select
          aria-label="Instrument"
          title="Instrument of your hand (G forceps, N needle, C cannula, with an eye in focus)"
          value={instrument}
          onChange={(event) => twinEngine.act({ kind: 'take', instrument: event.target.value as Instrument })}
          data-testid="lecture-instrument"
        >
          <option value="forceps">Forceps</option>
          <option value="needle">Needle</option>
          <option value="cannula">Cannula</option>
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
        title="Draw over the eyes, or put the pen away (D)"
        data-testid="draw"
      >
        Draw <kbd>D</kbd>
      </button>
      {tool !== null &&
        TOOLS.map((one) => (
          <button
            key={one.tool}
            type="button"
            aria-pressed={tool === one.tool}
            onClick={() => setTool(one.tool)}
            title={one.words}
            data-testid={`draw-${one.tool}`}
          >
            {one.label}
          </button>
        ))}
      {(tool !== null || shapes.length > 0) && (
        <>
          <button
            type="button"
            onClick={undo}
            disabled={past.length === 0}
            title="Take back the last stroke (Ctrl Z)"
            data-testid="draw-undo"
          >
            Undo
          </button>
          <button
            type="button"
            onClick={() => setShapes([])}
            disabled={shapes.length === 0}
            title="Take away everything that is drawn (X)"
            data-testid="draw-clear"
          >
            Clear <kbd>X</kbd>
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
        title="A trail behind the pointer (T)"
        data-testid="trail-toggle"
      >
        Trail <kbd>T</kbd>
      </button>
      <button
        type="button"
        onClick={() => setBlack(true)}
        title="Black screen until B is pressed again"
        data-testid="black-out"
      >
        Black <kbd>B</kbd>
      </button>
      <button type="button" onClick={nextTextSize} title="Size of the text (A)" data-testid="text-size">
        Text {textSize} of 3 <kbd>A</kbd>
      </button>
      <span className="twin-magnifier">
        <button
          type="button"
          onClick={() => magnify(-1)}
          disabled={steppedMagnification(magnification, -1) === magnification}
          aria-label="Magnify less"
          title="Magnify both eyes less (-)"
        >
          −
        </button>
        <span data-testid="lecture-magnification">×{number(magnification, 2)}</span>
        <button
          type="button"
          onClick={() => magnify(1)}
          disabled={steppedMagnification(magnification, 1) === magnification}
          aria-label="Magnify more"
          title="Magnify both eyes more (+)"
          data-testid="lecture-magnify"
        >
          +
        </button>
      </span>
    </>
  );
}
