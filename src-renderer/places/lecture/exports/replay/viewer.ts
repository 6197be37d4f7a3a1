/**
 * The page that replays a board in any browser, without the program and without a network. Bundled into one text of its
 * own, which is put into the saved file beside the packed replay.
 */
import type { PageWords, Replay } from './contract.ts';
import { EyeDrawing } from './eye-drawing.ts';
import { unpackReplay } from './pack.ts';

const find = <T extends HTMLElement>(id: string): T => {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`the page has no ${id}`);
  return element as T;
};

const words = JSON.parse(find('words').textContent ?? '{}') as PageWords;

/** A message with its names filled in. */
const filled = (text: string, values: Readonly<Record<string, string>>): string =>
  text.replace(/\{(\w+)\}/g, (name, key: string) => values[key] ?? name);

/** As the language of the page writes it, with Western digits. */
function decimal(value: number, places: number): string {
  if (!Number.isFinite(value)) return '–';
  const digits = { minimumFractionDigits: places, maximumFractionDigits: places, useGrouping: false };
  return new Intl.NumberFormat(`${document.documentElement.lang}-u-nu-latn`, digits).format(value).replace('-', '−');
}

/** Field shown, in pupil diameters. */
const PUPILS_SHOWN = 1.15;

class Player {
  readonly #replay: Replay;
  readonly #drawings: readonly EyeDrawing[];
  readonly #numbers: readonly HTMLElement[];
  readonly #scrub = find<HTMLInputElement>('scrub');
  readonly #button = find<HTMLButtonElement>('play');
  #at = 0;
  /** Time shown within the replay, s; runs on between moments. */
  #time_s: number;
  #playing = false;
  #before_ms = 0;

  constructor(replay: Replay) {
    this.#replay = replay;
    this.#time_s = replay.times_s[0] ?? 0;
    const room = find('eyes');
    // one scale for both: a millimetre is as long in the one as in the other
    const field_mm = PUPILS_SHOWN * Math.max(...replay.eyes.map(({ pupilDiameter_mm }) => pupilDiameter_mm));
    const made = replay.eyes.map((eye) => {
      const figure = document.createElement('figure');
      const caption = document.createElement('figcaption');
      const numbers = document.createElement('p');
      const canvas = document.createElement('canvas');
      caption.textContent = eye.label;
      canvas.width = 900;
      canvas.height = 900;
      canvas.setAttribute('role', 'img');
      canvas.setAttribute('aria-label', filled(words.eye, { label: eye.label }));
      figure.append(caption, canvas, numbers);
      room.append(figure);
      return { drawing: new EyeDrawing(canvas, eye, field_mm), numbers };
    });
    this.#drawings = made.map(({ drawing }) => drawing);
    this.#numbers = made.map(({ numbers }) => numbers);
    this.#scrub.max = String(replay.times_s.length - 1);
    this.#scrub.addEventListener('input', () => this.#show(Number(this.#scrub.value), true));
    this.#button.addEventListener('click', () => this.#play(!this.#playing));
    for (const id of ['arrows', 'tension']) find(id).addEventListener('change', () => this.#show(this.#at, false));
    this.#show(0, true);
  }

  #play(playing: boolean): void {
    const last = this.#replay.times_s.length - 1;
    if (playing && this.#at >= last) this.#show(0, true);
    this.#playing = playing;
    this.#button.textContent = playing ? words.pause : words.play;
    this.#before_ms = performance.now();
    if (playing) requestAnimationFrame((now_ms) => this.#pass(now_ms));
  }

  #pass(now_ms: number): void {
    if (!this.#playing) return;
    const speed = Number(find<HTMLSelectElement>('speed').value);
    this.#time_s += (speed * Math.max(0, now_ms - this.#before_ms)) / 1000;
    this.#before_ms = now_ms;
    const { times_s } = this.#replay;
    let at = this.#at;
    while (at + 1 < times_s.length && times_s[at + 1]! <= this.#time_s) at += 1;
    if (at !== this.#at) this.#show(at, false);
    if (at >= times_s.length - 1) this.#play(false);
    else requestAnimationFrame((next_ms) => this.#pass(next_ms));
  }

  /** @param jump whether the time goes on from here */
  #show(at: number, jump: boolean): void {
    this.#at = at;
    const time_s = this.#replay.times_s[at] ?? 0;
    if (jump) this.#time_s = time_s;
    this.#scrub.value = String(at);
    this.#scrub.setAttribute('aria-valuetext', filled(words.seconds, { value: decimal(time_s, 1) }));
    find('time').textContent = `${decimal(time_s, 1)} s`;
    const aids = {
      arrows: find<HTMLInputElement>('arrows').checked,
      tension: find<HTMLInputElement>('tension').checked,
    };
    for (const [k, eye] of this.#replay.eyes.entries()) {
      const moment = eye.moments[at];
      if (moment === undefined) continue;
      this.#drawings[k]?.draw(moment, aids);
      const ratio = moment.tips.reduce((most, tip) => Math.max(most, tip.ratio), 0);
      this.#numbers[k]!.textContent = filled(ratio > 1 ? words.goes : words.rests, {
        ratio: decimal(ratio, 2),
        grip: decimal(moment.gripForce_mN, 1),
        pressure: decimal(moment.netPressure_mmHg, 1),
      });
    }
    document.body.dataset.moment = String(at);
  }
}

unpackReplay(find('replay').textContent ?? '').then(
  (replay) => {
    new Player(replay);
    document.body.dataset.ready = 'true';
  },
  (fault: unknown) => {
    const why = fault instanceof Error ? fault.message : String(fault);
    find('trouble').textContent = filled(words.trouble, { fault: why });
  },
);
