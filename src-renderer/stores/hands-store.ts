import { create } from 'zustand';
import type { Preferences } from '../../src-main/ipc/contract.ts';
import { type HandWays, STEER_mm_per_s } from '../tools/hand.ts';
import { STEADYING } from '../tools/steady.ts';

/** What can be set by a number: the usual value, its ends, and the step of its slider. All are our choice. */
export const HAND_RANGES = {
  /** Way of the tip over way of the device on the stage, while tissue is held. */
  mouse: { usual: 1, least: 0.25, most: 2, step: 0.05 },
  pen: { usual: 1, least: 0.25, most: 2, step: 0.05 },
  touch: { usual: 1, least: 0.25, most: 2, step: 0.05 },
  /** Share of a pen's full pressure that closes the jaws; they open at half of it. */
  penCloses: { usual: 0.35, least: 0.1, most: 0.8, step: 0.05 },
  /** Height per degree that a pen leans more or less than when it closed, mm; 0 turns it off. */
  penTilt_mm_per_deg: { usual: 0.03, least: 0, most: 0.08, step: 0.01 },
  /** How far from the finger the tip stands, CSS pixels; a finger end is about 50 wide. */
  fingerGap_px: { usual: 56, least: 0, most: 120, step: 4 },
  /** How long a finger rests before the jaws close, s. */
  fingerRest_s: { usual: 0.3, least: 0, most: 1, step: 0.05 },
  /** Speed of the tip at full stick, mm/s. */
  padSpeed_mm_per_s: { usual: 2, least: 0.5, most: 4, step: 0.1 },
  keysSpeed_mm_per_s: { usual: STEER_mm_per_s, least: 0.4, most: 3, step: 0.1 },
} as const;

export type HandNumber = keyof typeof HAND_RANGES;
export const HAND_NUMBERS = Object.keys(HAND_RANGES) as readonly HandNumber[];
export type HandSwitch = 'leftHanded' | 'steadied';
export const HAND_SWITCHES: readonly HandSwitch[] = ['leftHanded', 'steadied'];

/** How this person's hands work the instrument. */
export type HandSettings = Readonly<Record<HandNumber, number> & Record<HandSwitch, boolean>>;

interface HandsState extends HandSettings {
  set(changed: Partial<HandSettings>): void;
}

export const USUAL_HANDS: HandSettings = {
  ...(Object.fromEntries(HAND_NUMBERS.map((key) => [key, HAND_RANGES[key].usual])) as Record<HandNumber, number>),
  leftHanded: false,
  steadied: false,
};

export const useHands = create<HandsState>((set) => ({ ...USUAL_HANDS, set: (changed) => set(changed) }));

/** What the settings mean for the hand. A trial's rules offer no steadying, so there is none in a trial. */
export function handWays(place: 'bench' | 'trial' | 'lecture'): HandWays {
  const { steadied, keysSpeed_mm_per_s } = useHands.getState();
  return { steadying: steadied && place !== 'trial' ? STEADYING : null, keys_mm_per_s: keysSpeed_mm_per_s };
}

const keptAs = (key: HandNumber | HandSwitch): string => `hands.${key.replaceAll('_', '')}`;

/** The settings among a person's preferences; what is missing, of another kind or out of range is left out. */
export function keptHands(kept: Preferences): Partial<HandSettings> {
  const numbers = HAND_NUMBERS.flatMap((key) => {
    const value = kept[keptAs(key)];
    const { least, most } = HAND_RANGES[key];
    return typeof value === 'number' && value >= least && value <= most ? [[key, value]] : [];
  });
  const switches = HAND_SWITCHES.flatMap((key) => {
    const value = kept[keptAs(key)];
    return typeof value === 'boolean' ? [[key, value]] : [];
  });
  return Object.fromEntries([...numbers, ...switches]) as Partial<HandSettings>;
}

/**
 * Brings back this person's hands and keeps them when they change, where the program around the page offers that. What
 * cannot be kept is only written to the console: no reason to disturb anybody at work.
 */
export async function keepHands(): Promise<void> {
  const host = window.rimwardHost;
  if (host === undefined) return;
  const unkept = (fault: unknown) => console.warn('preferences:', fault);
  await host
    .loadPreferences()
    .then((kept) => useHands.setState(keptHands(kept)))
    .catch(unkept);
  useHands.subscribe((now, before) => {
    for (const key of [...HAND_NUMBERS, ...HAND_SWITCHES]) {
      if (now[key] !== before[key]) host.savePreference(keptAs(key), now[key]).catch(unkept);
    }
  });
}

/** What was last heard of a gamepad, for a line on the page. */
export const usePadNews = create<{ readonly news: 'plugged' | 'unplugged' | null }>(() => ({ news: null }));
