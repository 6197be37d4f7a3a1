import type { z } from 'zod';
import { bad, ok, type Problem, type Result } from '../core/result.ts';

/** Largest file that is read at all, in characters of text. */
export const MAX_FILE_CHARACTERS = 20_000_000;
/** Problems listed for one file; what is beyond is counted in one last line. */
export const MAX_PROBLEMS = 200;

export type JsonPath = readonly PropertyKey[];

/** `incisions[0].width_mm` for ['incisions', 0, 'width_mm']. */
export function formatPath(path: JsonPath): string {
  return path.reduce<string>((text, part) => {
    if (typeof part === 'number') return `${text}[${part}]`;
    return text === '' ? String(part) : `${text}.${String(part)}`;
  }, '');
}

/** What stands at a path of parsed JSON; undefined where there is nothing. Never throws. */
export function valueAt(root: unknown, path: JsonPath): unknown {
  let value = root;
  for (const part of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, part)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[part];
  }
  return value;
}

/** A value in a few words, at most about 60 characters; not recursive, so depth cannot hurt. */
export function describeFound(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'string') return JSON.stringify(value.length > 60 ? `${value.slice(0, 57)}...` : value);
  if (Array.isArray(value)) return value.length === 1 ? 'a list of 1 item' : `a list of ${value.length} items`;
  if (typeof value === 'object' && value !== null) return 'an object';
  return String(value);
}

/** Text to JSON. Too long, empty, cut off or not JSON at all gives one problem with the place. Never throws. */
export function parseJsonText(text: string, file: string): Result<unknown> {
  if (text.length > MAX_FILE_CHARACTERS) {
    return bad([{ file, path: '', found: `${text.length} characters`, allowed: `at most ${MAX_FILE_CHARACTERS}` }]);
  }
  const body = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  if (body.trim() === '') return bad([{ file, path: '', found: 'an empty file', allowed: 'JSON' }]);
  try {
    return ok(JSON.parse(body) as unknown);
  } catch (error) {
    // Only JSON.parse's own message is shown: it says where the text stops being JSON.
    const message = error instanceof Error ? error.message.replaceAll(/\s+/g, ' ').slice(0, 200) : 'unreadable text';
    return bad([
      { file, path: '', found: `text that is not JSON (${message})`, allowed: 'complete JSON; no NaN or Infinity' },
    ]);
  }
}

/** The schema's issues as problems, in file order of discovery, uncapped. `root` is the parsed JSON they are about. */
export function problemsOf(issues: readonly z.core.$ZodIssue[], root: unknown, file: string): Problem[] {
  return issues.flatMap((issue) => {
    if (issue.code === 'unrecognized_keys') {
      return issue.keys.map((key) => ({
        file,
        path: formatPath([...issue.path, key]),
        found: 'an unknown key',
        allowed: 'only the keys of the schema',
      }));
    }
    const found = describeFound(valueAt(root, issue.path));
    return [{ file, path: formatPath(issue.path), found, allowed: allowedBy(issue) }];
  });
}

function allowedBy(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'too_big':
    case 'too_small':
      return limitOf(issue);
    case 'invalid_type':
      return issue.expected === 'number' ? 'a finite number' : `${article(issue.expected)} ${issue.expected}`;
    case 'invalid_value':
      return issue.values.map((value) => JSON.stringify(value)).join(', ');
    case 'invalid_union':
      return allowedByUnion(issue);
    case 'invalid_format':
      return issue.format === 'regex' ? 'lower-case letters, digits and single hyphens' : issue.message;
    case 'custom':
      return 'a metric of the opening or of the work';
    default:
      return issue.message;
  }
}

function limitOf(issue: z.core.$ZodIssueTooBig | z.core.$ZodIssueTooSmall): string {
  const [word, strict, limit] =
    issue.code === 'too_big' ? ['at most', 'below', issue.maximum] : ['at least', 'above', issue.minimum];
  const counted =
    issue.origin === 'string'
      ? ' characters'
      : issue.origin === 'array'
        ? ` item${issue.code === 'too_small' && issue.minimum === 1 ? '' : 's'}`
        : '';
  return `${issue.inclusive === false ? strict : word} ${limit}${counted}`;
}

function allowedByUnion(issue: z.core.$ZodIssueInvalidUnion): string {
  const { options } = issue as { options?: readonly unknown[] };
  if (options !== undefined) return options.map((option) => JSON.stringify(option)).join(', ');
  return issue.errors.map((branch) => branch.map(allowedBy).join(' and ')).join(', or ');
}

const article = (noun: string) => (/^[aeio]/.test(noun) ? 'an' : 'a');

/** Keeps a list short enough to read and says how many more there are. */
export function capProblems(problems: readonly Problem[], file: string): readonly Problem[] {
  if (problems.length <= MAX_PROBLEMS) return problems;
  const more = problems.length - MAX_PROBLEMS;
  return [...problems.slice(0, MAX_PROBLEMS), { file, path: '', found: `${more} more problems`, allowed: 'none' }];
}

/** A version that this program does not know: nothing else of the file can be judged then. */
export function versionProblem(root: unknown, key: string, file: string): Problem | null {
  const version = valueAt(root, [key]);
  if (version === undefined || version === 1) return null;
  return { file, path: key, found: `version ${describeFound(version)}`, allowed: '1' };
}
