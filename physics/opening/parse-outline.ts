import { bad, ok, type Problem, type Result } from '../core/result.ts';
import { MAX_OUTLINE_POINTS } from './sound-outline.ts';

type Points = readonly (readonly [number, number])[];

/** More problems than this help nobody. */
const MOST_PROBLEMS = 20;
const PLAIN_NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;
const ALLOWED_JSON = '[[x, y], ...] or {"points": [[x, y], ...]}, in mm';

function checked(points: Points, problems: readonly Problem[], file: string): Result<Points> {
  if (problems.length > 0) return bad(problems.slice(0, MOST_PROBLEMS));
  if (points.length > MAX_OUTLINE_POINTS) {
    return bad([{ file, path: '', found: `${points.length} points`, allowed: `at most ${MAX_OUTLINE_POINTS}` }]);
  }
  return ok(points);
}

const shortened = (value: unknown): string => (JSON.stringify(value) ?? String(value)).slice(0, 60);

/** The list inside the JSON, with its place; null when there is none. */
function listIn(json: unknown): { readonly list: readonly unknown[]; readonly at: string } | null {
  if (Array.isArray(json)) return { list: json, at: '' };
  if (typeof json !== 'object' || json === null) return null;
  const { points } = json as { points?: unknown };
  return Array.isArray(points) && Object.keys(json).length === 1 ? { list: points, at: 'points' } : null;
}

function fromJson(text: string, file: string): Result<Points> {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (fault) {
    return bad([{ file, path: '', found: `no JSON (${(fault as Error).message})`, allowed: ALLOWED_JSON }]);
  }
  const inside = listIn(json);
  if (inside === null) return bad([{ file, path: '', found: shortened(json), allowed: ALLOWED_JSON }]);
  const problems: Problem[] = [];
  const points = inside.list.map((item, index): readonly [number, number] => {
    const sound = Array.isArray(item) && item.length === 2 && item.every((value) => Number.isFinite(value));
    if (sound) return [item[0], item[1]];
    problems.push({
      file,
      path: `${inside.at}[${index}]`,
      found: shortened(item),
      allowed: '[x, y], two numbers in mm',
    });
    return [0, 0];
  });
  return checked(points, problems, file);
}

function fromCsv(text: string, file: string): Result<Points> {
  const problems: Problem[] = [];
  const points: (readonly [number, number])[] = [];
  text.split(/\r\n|\n|\r/).forEach((line, index) => {
    if (line.trim() === '') return;
    const cells = line.split(/[,;\t]/).map((cell) => cell.trim());
    const isHeader = index === 0 && /^"?x/i.test(cells[0]) && /^"?y/i.test(cells[1] ?? '');
    if (isHeader) return;
    if (cells.length === 2 && cells.every((cell) => PLAIN_NUMBER.test(cell) && Number.isFinite(Number(cell)))) {
      points.push([Number(cells[0]), Number(cells[1])]);
    } else {
      const allowed = 'x and y in mm, with decimal points, parted by a comma, semicolon or tab';
      problems.push({ file, path: `line ${index + 1}`, found: shortened(line), allowed });
    }
  });
  return checked(points, problems, file);
}

/** Longer texts are refused unread: the most points that are allowed, at 100 characters each. */
const MOST_CHARACTERS = 100 * MAX_OUTLINE_POINTS;

/**
 * Reads a closed outline in mm from the text of a JSON or CSV file (told apart by the first character, not by the
 * name). The first line of a CSV may name the columns x and y.
 *
 * @param text the whole file
 * @param file name as the person gave it, for the problems
 * @returns the points as they stand, or the problems, the first 20 of them. Never throws. Whether the points make a sound
 *   outline is for `measureOpening` to say.
 */
export function parseOutline(text: string, file: string): Result<Points> {
  if (text.length > MOST_CHARACTERS) {
    return bad([{ file, path: '', found: `${text.length} characters`, allowed: `at most ${MOST_CHARACTERS}` }]);
  }
  const plain = text.replace(/^\uFEFF/, '');
  return /^\s*[[{]/.test(plain) ? fromJson(plain, file) : fromCsv(plain, file);
}
