import type { RimwardHost } from '../../../src-main/ipc/contract.ts';

/** The program around the page. Throws a line for the person where the page stands alone. */
export function storeHost(): RimwardHost {
  const host = window.rimwardHost;
  if (host === undefined) throw new Error('This page was opened without Rimward around it, so it has no logbook.');
  return host;
}

/** What went wrong, as a line for the person. */
export const faultWords = (fault: unknown): string => (fault instanceof Error ? fault.message : String(fault));
