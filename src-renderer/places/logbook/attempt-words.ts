import type { AttemptSummary } from '../../../src-main/ipc/contract.ts';
import { whenWords } from './attempt-columns.ts';

/** One attempt in one line. */
export const attemptTitle = ({ personName, scenarioTitle, startedAt }: AttemptSummary): string =>
  `${personName}, ${scenarioTitle}, ${whenWords(startedAt)}`;
