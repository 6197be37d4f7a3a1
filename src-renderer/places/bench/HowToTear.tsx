/** Five lines that are always at hand. The keys are those of tools/keys.ts. */
export function HowToTear() {
  return (
    <details className="how" open>
      <summary>How to tear</summary>
      <ol>
        <li>
          Point at the flap just inside its torn edge, near the tear’s tip. <b>Hold</b> the button to close the jaws,
          let go to open them.
        </li>
        <li>
          Press <kbd>F</kbd> to fold the held flap over. <b>Wheel</b> raises and lowers the tip.
        </li>
        <li>Move to pull: along the circle and toward the centre. The tear follows the forces, not the pointer.</li>
        <li>Let go and grasp again near the tip, every clock hour or two.</li>
        <li>
          <kbd>1</kbd> <kbd>2</kbd> <kbd>3</kbd> instrument, <kbd>I</kbd> incision, arrows and <kbd>Enter</kbd> without
          a mouse, <kbd>Space</kbd> pause, <kbd>R</kbd> start over.
        </li>
      </ol>
    </details>
  );
}
