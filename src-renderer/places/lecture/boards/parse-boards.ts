import {
  bad,
  capProblems,
  describeFound,
  ok,
  type Problem,
  parseJsonText,
  problemsOf,
  type Result,
  valueAt,
  versionProblem,
} from '../../../../physics/index.ts';
import type { Board, BoardFile } from './board.ts';
import { boardFileSchema, MAX_BOARD_FILE_CHARACTERS } from './board-schema.ts';
import { boardSetup, type ScenarioById, shippedScenario } from './board-setup.ts';
import { markdownFaults } from './markdown-problems.ts';

/**
 * Reads a file of boards of version 1.
 *
 * @param text the whole file, at most 5 million characters; a longer one is not parsed at all
 * @param file name as the person gave it, for the problems
 * @param scenarioById finds the scenarios that boards name; the shipped ones when left out
 * @returns every board, runnable as it stands; or all problems at once (the first 200), and nothing of the file. Never throws.
 */
export function parseBoards(
  text: string,
  file: string,
  scenarioById: ScenarioById = shippedScenario,
): Result<BoardFile> {
  if (text.length > MAX_BOARD_FILE_CHARACTERS) {
    const allowed = `at most ${MAX_BOARD_FILE_CHARACTERS}`;
    return bad([{ file, path: '', found: `${text.length} characters`, allowed }]);
  }
  const json = parseJsonText(text, file);
  return json.ok ? checkBoards(json.value, file, scenarioById) : json;
}

/** As parseBoards, for JSON that is parsed already, such as the boards that ship. Does not change it. */
export function checkBoards(
  value: unknown,
  file: string,
  scenarioById: ScenarioById = shippedScenario,
): Result<BoardFile> {
  const version = versionProblem(value, 'rimwardBoards', file);
  if (version !== null) return bad([version]);
  const parsed = boardFileSchema.safeParse(value);
  const single = parsed.success ? [] : problemsOf(parsed.error.issues, value, file);
  const list = valueAt(value, ['boards']);
  const texts = (Array.isArray(list) ? list : []).flatMap((board, index) => ruleProblems(board, index, list, file));
  const pairs = parsed.success ? parsed.data.boards.flatMap((board, index) => pairProblems(board, index)) : [];
  const problems = [...single, ...texts, ...pairs];
  if (!parsed.success || problems.length > 0) return bad(capProblems(problems, file));
  const { $schema: _forEditors, ...boards } = parsed.data;
  // scenario and hand are unknown to the schema; pairProblems has checked both
  return ok(boards as BoardFile);

  function pairProblems(board: (typeof parsed & { success: true })['data']['boards'][number], index: number) {
    const setup = boardSetup(board, scenarioById, file, `boards[${index}]`);
    return setup.ok ? [] : setup.problems;
  }
}

/** Places of a board that are shown as Markdown. */
const MARKDOWN: readonly (readonly string[])[] = [['text'], ['toDo'], ['toWatch'], ['question', 'reveal']];
/** Texts far beyond their limit are not looked into: the limit is the problem. */
const LOOKED_INTO = 20_000;

function ruleProblems(board: unknown, index: number, list: unknown, file: string): Problem[] {
  const at = `boards[${index}]`;
  const problems = MARKDOWN.flatMap((path) => {
    const text = valueAt(board, path);
    if (typeof text !== 'string' || text.length > LOOKED_INTO) return [];
    return markdownFaults(text).map((fault) => ({ file, path: `${at}.${path.join('.')}`, ...fault }));
  });
  const id = valueAt(board, ['id']);
  const first = (list as readonly Pick<Board, 'id'>[]).findIndex((one) => valueAt(one, ['id']) === id);
  if (id !== undefined && first < index) {
    problems.push({ file, path: `${at}.id`, found: `${describeFound(id)} again`, allowed: 'each id once' });
  }
  const from = valueAt(board, ['loop_s', 0]);
  const to = valueAt(board, ['loop_s', 1]);
  if (typeof from === 'number' && typeof to === 'number' && to <= from) {
    problems.push({ file, path: `${at}.loop_s[1]`, found: `${to}`, allowed: `above its beginning, ${from}` });
  }
  return problems;
}
