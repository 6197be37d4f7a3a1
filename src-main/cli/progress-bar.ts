import type { Output } from './command.ts';

/** A bar on a terminal; nothing where messages go to a file. `of` says what the share is of. */
export function progressBar(output: Output, of: string): (share: number) => void {
  let shown = -1;
  return (share) => {
    const percent = Math.floor(100 * Math.min(1, Math.max(0, share)));
    if (!output.messagesToTerminal || percent === shown) return;
    shown = percent;
    output.message(`\r[${'#'.repeat(percent / 4).padEnd(25)}] ${percent} % of ${of}`);
    if (percent === 100) output.message('\n');
  };
}
