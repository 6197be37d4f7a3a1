import { useContext, useEffect, useState } from 'react';
import type { WorldEvent } from '../../physics/index.ts';
import { t } from '../i18n/text.ts';
import { SessionOfPlace, type SessionStore } from '../stores/session-store.ts';
import { tipWords } from './tip-words.ts';
import { Voice } from './voice.ts';
import { eventWords } from './words.ts';

/** How often the stage is looked at, ms. */
const LOOK_ms = 500;

/** What the stage shows, to be said. */
export interface Spoken {
  /** Changes with the attempt. */
  readonly of: unknown;
  /** All that has happened up to the moment shown, oldest first. */
  readonly events: readonly WorldEvent[];
  /** Said before an event, such as the name of the eye. Empty where there is one eye only. */
  readonly name?: (event: WorldEvent) => string;
  readonly words: string;
  readonly torn_mm: number;
}

/** Rests between two runs of the tear say nothing that the next line does not. */
const worthTelling = ({ kind }: WorldEvent): boolean => kind !== 'tear-stops';

/** V asks, unless something is being written or the key is part of a shortcut. */
function asks(event: KeyboardEvent): boolean {
  if (event.key.toLowerCase() !== 'v' || event.ctrlKey || event.metaKey || event.altKey) return false;
  return !(event.target instanceof HTMLElement && event.target.closest('input, select, textarea, dialog') !== null);
}

/** Looks at the stage now and then. @returns how to stop */
function follow(read: () => Spoken | null, say: (words: string) => void): () => void {
  const voice = new Voice();
  let of: unknown;
  let heard = 0;
  let odd = false;
  const look = () => {
    const spoken = read();
    if (spoken === null) return;
    if (spoken.of !== of) {
      voice.forget();
      of = spoken.of;
      heard = spoken.events.length;
    }
    for (const event of spoken.events.slice(heard)) {
      if (!worthTelling(event)) continue;
      const words = eventWords(event);
      voice.happened(spoken.name === undefined ? words : t('common.voice.eye', { eye: spoken.name(event), words }));
    }
    heard = spoken.events.length;
    const words = voice.at({ now_ms: performance.now(), words: spoken.words, torn_mm: spoken.torn_mm });
    if (words === null) return;
    // the same words said again must differ to be read again
    odd = !odd;
    say(odd ? words : `${words}\u00a0`);
  };
  const pressed = (event: KeyboardEvent) => {
    if (!asks(event)) return;
    voice.ask();
    look();
  };
  const timer = window.setInterval(look, LOOK_ms);
  window.addEventListener('keydown', pressed);
  return () => {
    window.clearInterval(timer);
    window.removeEventListener('keydown', pressed);
  };
}

/** The stage for ears: what happens, and now and then where the tip is. Nothing of it is seen. */
export function StageVoice({ read }: { readonly read: () => Spoken | null }) {
  const [words, setWords] = useState('');
  useEffect(() => follow(read, setWords), [read]);
  return (
    <p className="for-ears" aria-live="polite" data-testid="stage-voice">
      {words}
    </p>
  );
}

/** The attempt of a session as it is to be said. */
function spokenOf(store: SessionStore): Spoken | null {
  const { view, events, geometry, attempt, scenario } = store.getState();
  if (view === null || geometry === null) return null;
  const words = tipWords(view, geometry.target.centre_mm);
  return { of: `${scenario?.id} ${attempt}`, events, words, torn_mm: view.torn_mm };
}

/** The voice of the attempt in hand, at the bench and in a trial. */
export function SessionVoice() {
  const store = useContext(SessionOfPlace);
  const [read] = useState(() => () => (store === null ? null : spokenOf(store)));
  return <StageVoice read={read} />;
}
