import type { HandCommand } from '../../physics/index.ts';

/** What a key asks for at the bench. */
export type KeyAction =
  | { readonly kind: 'take'; readonly instrument: HandCommand['instrument'] }
  | { readonly kind: 'toggle' | 'open' | 'fold' | 'next-incision' | 'start-over' | 'bring-back' | 'pause' }
  | { readonly kind: 'raise'; readonly by_mm: number }
  | { readonly kind: 'magnify'; readonly direction: 1 | -1 | 0 };

/** The parts of a keyboard event that matter. */
export interface KeyPress {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
}

const PLAIN: Readonly<Record<string, KeyAction>> = {
  '1': { kind: 'take', instrument: 'forceps' },
  '2': { kind: 'take', instrument: 'needle' },
  '3': { kind: 'take', instrument: 'cannula' },
  enter: { kind: 'toggle' },
  escape: { kind: 'open' },
  f: { kind: 'fold' },
  i: { kind: 'next-incision' },
  r: { kind: 'start-over' },
  ' ': { kind: 'pause' },
  pageup: { kind: 'raise', by_mm: 0.1 },
  pagedown: { kind: 'raise', by_mm: -0.1 },
  '+': { kind: 'magnify', direction: 1 },
  '=': { kind: 'magnify', direction: 1 },
  '-': { kind: 'magnify', direction: -1 },
  '0': { kind: 'magnify', direction: 0 },
};

/** The action of a key, null when it has none here. Keys with Ctrl, Cmd or Alt belong to the window, but for undo. */
export function actionOf(press: KeyPress): KeyAction | null {
  const key = press.key.toLowerCase();
  if (press.ctrlKey || press.metaKey) return key === 'z' && !press.altKey ? { kind: 'bring-back' } : null;
  return press.altKey ? null : (PLAIN[key] ?? null);
}
