/** A board as one file that replays in any browser: text, packed replay, viewer, and rules that let nothing else in. */
import type { PageWords, Replay } from './contract.ts';
import { packReplay } from './pack.ts';

/** What goes into the page besides the replay. */
export interface BoardPage {
  readonly title: string;
  /** Sanitised; put into the page as it stands. */
  readonly text_html: string;
  readonly caution: string;
  /** One line: what it was made with. */
  readonly made: string;
  /** As an HTML page names it; numbers are written as it writes them. */
  readonly language: string;
  readonly words: PageWords;
}

export interface ViewerParts {
  readonly script: string;
  readonly style: string;
}

/** Largest file, bytes. */
export const MOST_bytes = 5_000_000;

const escaped = (text: string): string => text.replace(/[&<>"']/g, (letter) => `&#${letter.charCodeAt(0)};`);

async function hashOf(text: string): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text)));
  return `'sha256-${btoa(String.fromCharCode(...digest))}'`;
}

/** JSON that no browser takes for the end of its element. */
const embedded = (value: unknown): string => JSON.stringify(value).replaceAll('<', '\\u003c');

/** Every so many moments of a replay, and always the last. */
export function thinned(replay: Replay, every: number): Replay {
  const last = replay.times_s.length - 1;
  const stays = (_: unknown, at: number) => at % every === 0 || at === last;
  return {
    times_s: replay.times_s.filter(stays),
    eyes: replay.eyes.map((eye) => ({ ...eye, moments: eye.moments.filter(stays) })),
  };
}

/** The whole file, whatever its size. */
export async function boardPage(page: BoardPage, replay: Replay, { script, style }: ViewerParts): Promise<string> {
  if (/<\/script|<!--/i.test(script)) throw new Error('the viewer cannot be put into a page');
  const rules = [
    "default-src 'none'",
    `script-src ${await hashOf(script)}`,
    `style-src ${await hashOf(style)}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const word = (one: keyof PageWords): string => escaped(page.words[one]);
  return `<!doctype html>
<html lang="${escaped(page.language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${rules}">
<meta name="referrer" content="no-referrer">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(page.title)}</title>
<style>${style}</style>
</head>
<body>
<h1>${escaped(page.title)}</h1>
<p id="trouble" role="alert"></p>
<div id="eyes"></div>
<div class="controls">
<button id="play" type="button">${word('play')}</button>
<input id="scrub" type="range" min="0" value="0" step="1" aria-label="${word('moment')}">
<output id="time"></output>
<label>${word('speed')} <select id="speed"><option value="1">${word('real')}</option><option value="0.5">${word('half')}</option><option value="0.25">${word('quarter')}</option><option value="0.1">${word('tenth')}</option></select></label>
<label><input id="arrows" type="checkbox" checked> ${word('arrows')}</label>
<label><input id="tension" type="checkbox"> ${word('tension')}</label>
</div>
<p class="key"><b>P</b> ${word('pull')} <b>S</b> ${word('sheet')} <b>R</b> ${word('resultant')} ${word('key')}</p>
<main>${page.text_html}</main>
<p class="caution">${escaped(page.caution)}</p>
<p>${escaped(page.made)}</p>
<script type="application/json" id="words">${embedded(page.words)}</script>
<script type="text/plain" id="replay">${await packReplay(replay)}</script>
<script type="module">${script}</script>
</body>
</html>
`;
}

/** The file with as many moments as fit. @returns null when even few do not */
export async function boardPageThatFits(
  page: BoardPage,
  replay: Replay,
  parts: ViewerParts,
  most_bytes = MOST_bytes,
): Promise<string | null> {
  for (let every = 1; every <= 16; every *= 2) {
    const text = await boardPage(page, thinned(replay, every), parts);
    if (new TextEncoder().encode(text).length < most_bytes) return text;
  }
  return null;
}
