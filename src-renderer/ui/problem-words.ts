import type { Problem } from '../../physics/index.ts';
import { t } from '../i18n/text.ts';

/**
 * One problem of an input as a line. The words round it are in the person's language; what was found and what is allowed come
 * from the check itself, which knows English only.
 */
export function problemWords({ file, path, found, allowed }: Problem): string {
  const place = path === '' ? file : t('common.problem.inFile', { file, path });
  return t('common.problem.line', { place, found, allowed });
}
