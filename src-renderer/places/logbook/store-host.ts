import type { RimwardHost } from '../../../src-main/ipc/contract.ts';
import { t } from '../../i18n/text.ts';

/** The program around the page. Throws a line for the person where the page stands alone. */
export function storeHost(): RimwardHost {
  const host = window.rimwardHost;
  if (host === undefined) throw new Error(t('logbook.failed.noHost'));
  return host;
}

/** What went wrong, as a line for the person. */
export const faultWords = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));
