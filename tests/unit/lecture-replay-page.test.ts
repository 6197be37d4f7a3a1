import { beforeAll, describe, expect, test } from 'vitest';
import {
  checkHand,
  checkScenario,
  createWorld,
  handPlayer,
  stageGeometry,
  stepWorld,
  viewWorld,
  type WorldView,
} from '../../physics/index.ts';
import { SHIPPED_HANDS, SHIPPED_SCENARIOS } from '../../scenarios/shipped.ts';
import {
  boardPage,
  boardPageThatFits,
  MOST_bytes,
  thinned,
} from '../../src-renderer/places/lecture/exports/replay/board-page.ts';
import {
  BARE,
  FOLDED,
  GRID_SIDE,
  PAGE_WORDS,
  type PageWords,
  type Replay,
} from '../../src-renderer/places/lecture/exports/replay/contract.ts';
import { eyeOf, gridFrameOf, momentOf } from '../../src-renderer/places/lecture/exports/replay/moment-of.ts';
import { packReplay, unpackReplay } from '../../src-renderer/places/lecture/exports/replay/pack.ts';
import { sheetGrid } from '../../src-renderer/places/lecture/exports/replay/sheet-grid.ts';

/** Half of the last place kept: places to a micrometre, forces to a hundredth of a millinewton. */
const HALF_PLACE_mm = 0.0005 + 1e-6;
const HALF_FORCE_mN = 0.005 + 1e-9;

const WORDS = Object.fromEntries(PAGE_WORDS.map((word) => [word, `</script> ${word}`])) as PageWords;
const PAGE = {
  title: 'A <b>board</b>',
  text_html: '<p>Words.</p>',
  caution: 'Caution.',
  made: 'Made here.',
  language: 'es',
  words: WORDS,
};
const PARTS = { script: 'document.title += "!";', style: 'p { margin: 0; }' };

function moments(steps: number): { readonly views: readonly WorldView[]; readonly replay: Replay } {
  const scenario = checkScenario(SHIPPED_SCENARIOS.find(({ id }) => id === 'infant-pressure-behind')!.data, 'scenario');
  const hand = checkHand(SHIPPED_HANDS.find(({ id }) => id === 'infant-behind-holding')!.data, 'hand');
  if (!scenario.ok || !hand.ok) throw new Error('a shipped file is not sound');
  const world = createWorld(scenario.value);
  const next = handPlayer(world, hand.value);
  const views = [viewWorld(world)];
  while (views.length < steps) {
    const command = next(views.at(-1)!);
    if (command === null) break;
    stepWorld(world, command);
    views.push(viewWorld(world));
  }
  const geometry = stageGeometry(scenario.value);
  const frame = gridFrameOf(geometry, 3);
  const eye = { ...eyeOf('6 months', geometry, frame), moments: views.map((view) => momentOf(view, frame)) };
  return { views, replay: { times_s: views.map(({ time_s }) => time_s), eyes: [eye] } };
}

/** What stands between two marks of a text, the first end that comes, as a browser reads it. */
function between(text: string, from: string, to: string): string {
  const start = text.indexOf(from) + from.length;
  return text.slice(start, text.indexOf(to, start));
}

describe('a board as one page', () => {
  let views: readonly WorldView[];
  let replay: Replay;
  beforeAll(() => {
    ({ views, replay } = moments(90));
  });

  test('packing keeps every outline to the micrometre and every force to its last place', async () => {
    const back = await unpackReplay(await packReplay(replay));
    expect(back.times_s).toEqual(replay.times_s);
    expect(back.eyes[0]).toMatchObject({ label: '6 months', pupilDiameter_mm: replay.eyes[0]!.pupilDiameter_mm });
    expect(back.eyes[0]!.moments).toHaveLength(views.length);
    for (const [at, moment] of back.eyes[0]!.moments.entries()) {
      const was = replay.eyes[0]!.moments[at]!;
      expect(moment.sheet).toEqual(was.sheet);
      expect(moment.margins.map(({ length }) => length)).toEqual(was.margins.map(({ length }) => length));
      for (const [run, points] of moment.margins.entries())
        for (const [i, value] of points.entries())
          expect(Math.abs(value - was.margins[run]![i]!)).toBeLessThanOrEqual(HALF_PLACE_mm);
      expect(moment.tips).toHaveLength(was.tips.length);
      for (const [i, tip] of moment.tips.entries()) {
        expect(Math.abs(tip.x_mm - was.tips[i]!.x_mm)).toBeLessThanOrEqual(HALF_PLACE_mm);
        expect(Math.abs(tip.resultant_mN[1] - was.tips[i]!.resultant_mN[1])).toBeLessThanOrEqual(HALF_FORCE_mN);
        expect(tip.sheet_mN === null).toBe(was.tips[i]!.sheet_mN === null);
      }
      expect(Math.abs(moment.gripForce_mN - was.gripForce_mN)).toBeLessThanOrEqual(HALF_FORCE_mN);
    }
  });

  test('speaks the language it was saved in, and no message of it ends an element', async () => {
    const text = await boardPage(PAGE, replay, PARTS);
    expect(text).toContain('<html lang="es">');
    expect(text).toContain('<button id="play" type="button">&#60;/script&#62; play</button>');
    expect(JSON.parse(between(text, '<script type="application/json" id="words">', '</script>'))).toEqual(WORDS);
  });

  test('a packed replay that is cut short or damaged is refused, not shown wrongly', async () => {
    const packed = await packReplay(replay);
    await expect(unpackReplay(packed.slice(0, packed.length - 400))).rejects.toThrow();
    await expect(unpackReplay('no base64 §')).rejects.toThrow();
  });

  test('the map of the sheet shows the tense sheet, the bare lens or a fold, and nothing beyond the capsule', () => {
    const view = views[0]!;
    const frame = { centre_mm: [0, 0] as const, reach_mm: 12, tensionMost_mN_per_mm: 3 };
    const grid = sheetGrid(view, frame);
    expect(grid[0]).toBe(BARE);
    const reach = Math.max(...view.position_mm.filter((_, at) => at % 3 !== 2).map(Math.abs));
    const cell_mm = (2 * frame.reach_mm) / GRID_SIDE;
    const covered = grid.filter((value) => value !== BARE).length * cell_mm ** 2;
    // the flap covers sheet, so that what is covered is the disc less what the flap has left bare
    expect(covered).toBeLessThan(Math.PI * reach ** 2 * 1.02);
    expect(covered).toBeGreaterThan(Math.PI * reach ** 2 * 0.7);
    expect(grid.some((value) => value > BARE && value < FOLDED)).toBe(true);
  });

  test('a page of 90 moments is far below 5 MB, escapes its title and lets only its own script run', async () => {
    const text = await boardPage(PAGE, replay, PARTS);
    expect(text.length).toBeLessThan(0.1 * MOST_bytes);
    expect(text).toContain('A &#60;b&#62;board&#60;/b&#62;');
    expect(text).not.toContain('<b>board');
    expect(text).toContain("default-src 'none'");
    const hash = Buffer.from(await crypto.subtle.digest('SHA-256', new TextEncoder().encode(PARTS.script))).toString(
      'base64',
    );
    expect(text).toContain(`script-src 'sha256-${hash}'`);
    expect(text).not.toMatch(/https?:|src=|href=|url\(/);
  });

  test('a viewer that would end its own script element is refused', async () => {
    await expect(boardPage(PAGE, replay, { ...PARTS, script: 'x = "</script>"' })).rejects.toThrow('viewer');
  });

  test('moments are thinned until the page fits, the first and last staying; what cannot fit is refused', async () => {
    const half = thinned(replay, 2);
    expect(half.times_s[0]).toBe(replay.times_s[0]);
    expect(half.times_s.at(-1)).toBe(replay.times_s.at(-1));
    expect(half.times_s.length).toBe(Math.ceil((replay.times_s.length + 1) / 2));
    expect(half.eyes[0]!.moments).toHaveLength(half.times_s.length);
    const whole = await boardPage(PAGE, replay, PARTS);
    const some = await boardPageThatFits(PAGE, replay, PARTS, whole.length - 1);
    expect(some).not.toBeNull();
    expect(some!.length).toBeLessThan(whole.length);
    expect(await boardPageThatFits(PAGE, replay, PARTS, 1000)).toBeNull();
  });
});
