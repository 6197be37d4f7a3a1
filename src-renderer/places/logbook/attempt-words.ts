import type { AttemptSummary } from '../../../src-main/ipc/contract.ts';
import { t } from '../../i18n/text.ts';
import { whenWords } from './attempt-columns.ts';

/** One attempt in one line. */
export const attemptTitle = ({ personName, scenarioTitle, startedAt }: AttemptSummary): string =>
  t('logbook.attempt.title', { person: personName, eye: scenarioTitle, when: whenWords(startedAt) });
