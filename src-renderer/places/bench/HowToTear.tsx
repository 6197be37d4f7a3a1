import { useSession } from '../../stores/session-store.ts';

/** Five lines that are always at hand. The keys are those of tools/keys.ts. */
export function HowToTear() {
  const trial = useSession((state) => state.place === 'trial');
  return (
    <details className="how" open={!trial}>
      <summary>How to tear</summary>
      <ol>
        <li>
          Point just inside the flap’s torn edge, near the tip. <b>Hold</b> the button to grasp.
        </li>
        <li>
          <kbd>F</kbd> folds the held flap over; the <b>wheel</b> raises and lowers.
        </li>
        <li>Pull along the circle and inward. Forces move the tear, not the pointer.</li>
        <li>Let go, grasp again near the tip, every clock hour or two.</li>
        <li>
          <kbd>1</kbd> <kbd>2</kbd> <kbd>3</kbd> instrument, <kbd>I</kbd> incision
          {!trial && (
            <>
              , <kbd>R</kbd> start over
            </>
          )}
          . Without a mouse: arrows and <kbd>Enter</kbd>.
        </li>
      </ol>
    </details>
  );
}
