import type { Problem } from '../../physics/index.ts';
import { t } from '../i18n/text.ts';
import { judged } from './judged-words.ts';

/** One problem of an input as a line in the person's language. */
export function problemWords(problem: Problem): string {
  const { file, path, found, allowed } = judged(problem);
  const place = path === '' ? file : t('common.problem.inFile', { file, path });
  return t('common.problem.line', { place, found, allowed });
}
