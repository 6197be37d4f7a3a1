import fc from 'fast-check';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { formatProblem } from '../../physics/index.ts';
import builtIn from '../../scenarios/boards/why-outward.rimward-boards.json' with { type: 'json' };
import { BoardText } from '../../src-renderer/places/lecture/boards/BoardText.tsx';
import { MAX_BOARD_FILE_CHARACTERS } from '../../src-renderer/places/lecture/boards/board-schema.ts';
import { boardSetup, shippedScenario } from '../../src-renderer/places/lecture/boards/board-setup.ts';
import { markdownFaults } from '../../src-renderer/places/lecture/boards/markdown-problems.ts';
import { checkBoards, parseBoards } from '../../src-renderer/places/lecture/boards/parse-boards.ts';

type Json = Record<string, unknown>;

const plain = (): Json => ({
  id: 'mine',
  title: 'Mine',
  text: 'A *plain* text.',
  scenario: 'infant-thick-fluid',
  left: { label: '6 months', change: {} },
  right: { label: '40 years', change: { age_years: 40 } },
  hand: 'tangent-pull',
  aids: {
    arrows: true,
    safeCone: false,
    tensionMap: false,
    principalStrokes: false,
    polarCurve: false,
    targetCircle: true,
    numbers: false,
  },
  camera: { magnification: 1 },
});
const fileOf = (...boards: Json[]) => ({ rimwardBoards: 1, title: 'Boards', boards });
const linesOf = (change: Json) => {
  const read = checkBoards(fileOf({ ...plain(), ...change }), 'b.json');
  return read.ok ? [] : read.problems.map(formatProblem);
};
const question = (more: Json = {}) => ({
  question: { ask: 'Where?', answers: ['in', 'out'], reveal: 'Out.', holdAt: 'start', ...more },
});

describe('a file of boards', () => {
  it('is read with what is left out filled in', () => {
    const read = checkBoards(fileOf(plain()), 'b.json');
    expect(read.ok && read.value.boards[0]).toMatchObject({ id: 'mine', seed: 1, speed: 1 });
  });

  it('comes back the same after it was written', () => {
    const first = checkBoards(builtIn, 'built-in');
    const again = first.ok && parseBoards(JSON.stringify(first.value), 'again');
    expect(again).toEqual(first);
  });

  it.each<[string, Json, string]>([
    ['an unknown key', { sound: true }, 'b.json: boards[0].sound: found an unknown key'],
    ['an unknown key of a change', { left: { label: 'a', change: { weight: 3 } } }, 'boards[0].left.change.weight'],
    ['a missing aid', { aids: { arrows: true } }, 'boards[0].aids.safeCone'],
    ['an unknown aid', { aids: { ...(plain().aids as Json), sparkle: true } }, 'boards[0].aids.sparkle'],
    ['a scenario that is not here', { scenario: 'gone' }, 'boards[0].scenario: found "gone"'],
    ['no scenario', { scenario: undefined }, 'boards[0].scenario'],
    ['a bad scenario of its own', { scenario: { rimwardScenario: 1 } }, 'boards[0].scenario.eye'],
    ['a hand that is not here', { hand: 'gone' }, 'boards[0].hand: found "gone"'],
    ['a hand that begins otherwise', { hand: 'needle-tangent' }, 'boards[0].hand.start: found "needle"'],
    ['an age beyond the table', { left: { label: 'a', change: { age_years: 120 } } }, 'age_years: found 120'],
    [
      'a change that makes an eye impossible',
      { left: { label: 'a', change: { age_years: 0 } } },
      'boards[0].left.change: found',
    ],
    ['a text that is too long', { text: 'x'.repeat(4001) }, 'boards[0].text: found'],
    ['an empty title', { title: '   ' }, 'boards[0].title'],
    ['a loop that ends before it begins', { loop_s: [3, 3] }, 'boards[0].loop_s[1]: found 3, allowed: above'],
    ['one answer', question({ answers: ['in'] }), 'boards[0].question.answers'],
    ['a speed of nothing', { speed: 0 }, 'boards[0].speed: found 0'],
    ['no number', { stopAt_s: Number.NaN }, 'boards[0].stopAt_s'],
    ['a script in the text', { text: 'Hello <script>alert(1)</script>' }, 'boards[0].text: found HTML, "<script>"'],
    ['HTML that is shown on revealing', question({ reveal: '<img src=x onerror=alert(1)>' }), 'question.reveal'],
    ['a link to a script', { toWatch: '[a](javascript:alert(1))' }, 'boards[0].toWatch: found a link to "javascript:'],
    ['a picture from elsewhere', { toDo: '![a](https://example.com/a.png)' }, 'boards[0].toDo: found a picture'],
  ])('lists %s with its place, what was found and what is allowed', (_what, change, line) => {
    const lines = linesOf(change);
    expect(lines.join('\n')).toContain(line);
    for (const one of lines) expect(one).toMatch(/: found .+, allowed: .+/);
  });

  it('lists the faults of all boards at once, and an id that stands twice', () => {
    const read = checkBoards(fileOf(plain(), { ...plain(), hand: 'gone' }, { ...plain(), id: 'c', sound: 1 }), 'b');
    expect(read.ok).toBe(false);
    const lines = read.ok ? [] : read.problems.map(formatProblem);
    expect(lines.some((one) => one.includes('boards[1].id: found "mine" again'))).toBe(true);
    expect(lines.some((one) => one.includes('boards[2].sound'))).toBe(true);
  });

  it('is not parsed when it is too large, and is refused when it is another version or no JSON', () => {
    const large = parseBoards('['.repeat(MAX_BOARD_FILE_CHARACTERS + 1), 'b.json');
    expect(large.ok ? [] : large.problems.map(({ allowed }) => allowed)).toEqual(['at most 5000000']);
    const later = parseBoards(JSON.stringify({ ...fileOf(plain()), rimwardBoards: 2 }), 'b.json');
    expect(later.ok ? [] : later.problems.map(({ path }) => path)).toEqual(['rimwardBoards']);
    expect(parseBoards('{"rimwardBoards": 1,', 'b.json').ok).toBe(false);
  });

  it('never throws, whatever JSON it is', () => {
    const whatever = fc.oneof(
      fc.jsonValue(),
      fc.record({ rimwardBoards: fc.constant(1), title: fc.jsonValue(), boards: fc.array(fc.jsonValue()) }),
      fc
        .dictionary(fc.constantFrom(...Object.keys(plain()), 'question', 'loop_s'), fc.jsonValue())
        .map((part) => fileOf({ ...plain(), ...part })),
    );
    fc.assert(
      fc.property(whatever, (value) => {
        const read = checkBoards(value, 'b.json');
        return read.ok || read.problems.length > 0;
      }),
      { numRuns: 200 },
    );
  });
});

describe('what a board runs', () => {
  it('is the scenario with one eye’s changes, checked', () => {
    const read = checkBoards(fileOf(plain()), 'b');
    const setup = read.ok ? boardSetup(read.value.boards[0]!, shippedScenario, 'b', '') : read;
    if (!setup.ok) throw new Error(JSON.stringify(setup.problems));
    expect(setup.value.right?.scenario.eye.age_years).toBe(40);
    expect(setup.value.left.scenario.eye.age_years).toBe(0.5);
    expect(setup.value.hand).toMatchObject({ kind: 'program', hand: { id: 'tangent-pull' } });
  });
});

describe('Markdown of a board', () => {
  const html = (text: string) => renderToStaticMarkup(createElement(BoardText, { text }));

  /** Texts that try to bring something in; the second is what must not be in the page. */
  const HOSTILE: readonly (readonly [string, RegExp])[] = [
    ['<script>alert(1)</script>', /<script/i],
    ['a <b onmouseover="alert(1)">b</b>', /<b|onmouseover=/i],
    ['<img src=x onerror=alert(1)>', /<img|onerror/i],
    ['<svg/onload=alert(1)>', /<svg/i],
    ['[a](javascript:alert(1))', /href|javascript:/i],
    ['[a](JaVaScRiPt:alert(1))', /href|javascript:/i],
    ['[a](java&#x09;script:alert(1))', /href/i],
    ['<javascript:alert(1)>', /href/i],
    ['[a](data:text/html;base64,PHNjcmlwdD4=)', /href|data:/i],
    ['[a](vbscript:x)', /href/i],
    ['[a](//example.com)', /href/i],
    ['![a](https://example.com/a.png)', /<img|src/i],
    ['![a](data:image/svg+xml,<svg/>)', /<img|src/i],
    ['![a][b]\n\n[b]: https://example.com/a.png', /<img|src/i],
    ['[a][b]\n\n[b]: javascript:alert(1)', /href|javascript:/i],
    ['<iframe src="https://example.com"></iframe>', /<iframe|src/i],
    ['<style>*{display:none}</style>', /<style/i],
    ['<!-- --><script>alert(1)</script>', /<script/i],
  ];

  it.each(HOSTILE)('%s is a problem, and would not be drawn as it asks', (text, never) => {
    expect(markdownFaults(text).length).toBeGreaterThan(0);
    expect(html(text)).not.toMatch(never);
  });

  it.each([
    ['[the page](https://example.com) and <https://example.com/x>', 'the page'],
    ['`<script>` in letters', '&lt;script&gt;'],
    ['5 < 6 & 7 > 2', '5 &lt; 6 &amp; 7 &gt; 2'],
    ['**bold**\n\n- one\n- two', '<li>two</li>'],
  ])('%s may stand there and shows as words', (text, shown) => {
    expect(markdownFaults(text)).toEqual([]);
    expect(html(text)).toContain(shown);
    expect(html(text)).not.toMatch(/<a|href/);
  });

  it('nested without end is a problem, not a hang', () => {
    const started = Date.now();
    expect(markdownFaults('>'.repeat(3000)).map(({ found }) => found)).toContain('text nested very deeply');
    expect(Date.now() - started).toBeLessThan(20_000);
  });

  it('draws no element with an address or a handler, whatever is written', () => {
    const piece = fc.constantFrom(
      ...HOSTILE.map(([text]) => text),
      '[',
      '](',
      ')',
      '<',
      '>',
      '!',
      '"',
      '\n',
      '`',
      '&#x6A;',
      'javascript:',
      'onclick=x',
      ' ',
      'a',
      '- ',
      '> ',
      '*',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
        const tags = html(pieces.join('')).match(/<[a-z][^>]*>/gi) ?? [];
        return tags.every((tag) =>
          /^<(div class="board-text"|code class="language-[^"]*"|ol start="\d+"|[a-z0-9]+\/?)>$/.test(tag),
        );
      }),
      { numRuns: 300 },
    );
  });
});
