import type { AttemptSummary } from '../../../src-main/ipc/contract.ts';
import { textOf } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { whenWords } from './attempt-columns.ts';

/** One attempt in one line. */
export const attemptTitle = ({ personName, scenarioTitle, startedAt }: AttemptSummary): string =>
  t('logbook.attempt.title', { person: personName, eye: textOf(scenarioTitle), when: whenWords(startedAt) });
