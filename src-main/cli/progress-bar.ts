import { t } from '../words/words.ts';
import type { Output } from './command.ts';

/** A bar on a terminal; nothing where messages go to a file. `what` is what the share is of, in words. */
export function progressBar(output: Output, what: string): (share: number) => void {
  let shown = -1;
  return (share) => {
    const percent = Math.floor(100 * Math.min(1, Math.max(0, share)));
    if (!output.messagesToTerminal || percent === shown) return;
    shown = percent;
    output.message(`\r[${'#'.repeat(percent / 4).padEnd(25)}] ${t('terminal.progress.share', { percent, what })}`);
    if (percent === 100) output.message('\n');
  };
}

/** How many of all are done, on a terminal in one line that is written over, else a line each. */
export function progressCount(
  output: Output,
  key: 'computed' | 'played',
): { readonly done: (done: number, all: number) => void; readonly end: () => void } {
  const onTerminal = output.messagesToTerminal;
  return {
    done: (done, all) => {
      const line = t(onTerminal ? 'terminal.progress.count' : `terminal.progress.${key}`, { done, all });
      output.message(onTerminal ? `\r${line}   ` : `${line}\n`);
    },
    end: () => {
      if (onTerminal) output.message('\n');
    },
  };
}
