import { afterAll, describe, expect, it } from 'vitest';
import { type Problem, parseHand, parseOutline, type Result } from '../../physics/index.ts';
import { MESSAGES } from '../../src-renderer/i18n/languages.ts';
import { speak } from '../../src-renderer/i18n/text.ts';
import { parseBoards } from '../../src-renderer/places/lecture/boards/parse-boards.ts';
import { judged } from '../../src-renderer/ui/judged-words.ts';

afterAll(() => speak('en'));

const problemsOf = (result: Result<unknown>): readonly Problem[] => (result.ok ? [] : result.problems);

/** Wrong files of each kind as a person may open them. */
const WRONG: readonly (readonly [string, readonly Problem[]])[] = [
  ['an empty file', problemsOf(parseHand('', 'f'))],
  ['a cut-off file', problemsOf(parseHand('{"a', 'f'))],
  ['an outline of too few numbers', problemsOf(parseOutline('1;2;3\n', 'f'))],
  ['an outline that is another thing', problemsOf(parseOutline('{"a":1}', 'f'))],
  ['boards of another version', problemsOf(parseBoards('{"rimwardBoards":2}', 'f'))],
  ['boards with nothing in them', problemsOf(parseBoards('{"rimwardBoards":1}', 'f'))],
];

/** Words of English that no other language of ours has. */
const ENGLISH = /\b(the|with|that|characters|must|file|only|keys)\b/i;

describe('what is wrong with a file', () => {
  it.each(WRONG)('is told in Spanish: %s', (_, problems) => {
    expect(problems.length).toBeGreaterThan(0);
    speak('es');
    for (const problem of problems) {
      const { found, allowed } = judged(problem);
      expect(allowed).not.toMatch(ENGLISH);
      // JSON.parse's own message stands as it is, in brackets
      expect(found.replace(/\(.*\)$/, '')).not.toMatch(ENGLISH);
    }
  });

  it('keeps what stood in the file', () => {
    speak('hi');
    const problem = { file: 'f', path: 'p', found: 'HTML, "<b onclick>"', allowed: 'text in Markdown without HTML' };
    expect(judged(problem)).toEqual({
      ...problem,
      found: 'HTML कोड, "<b onclick>"',
      allowed: 'बिना HTML का Markdown पाठ',
    });
  });

  it('reads every template back from its own English text', () => {
    speak('es');
    for (const [key, text] of Object.entries(MESSAGES.en.common.judged)) {
      const filled = text.replace('{{limit}}', '7').replace('{{field}}', 'a.b').replace('{{text}}', '"q"');
      const spanish = MESSAGES.es.common.judged[key as keyof typeof MESSAGES.es.common.judged];
      const wanted = spanish.replace('{{limit}}', '7').replace('{{field}}', 'a.b').replace('{{text}}', '"q"');
      expect(judged({ file: '', path: '', found: filled, allowed: '' }).found, key).toBe(wanted);
    }
  });
});
