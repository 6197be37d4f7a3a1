import { create } from 'zustand';
import { faultText } from '../../../i18n/content.ts';
import { t } from '../../../i18n/text.ts';
import { fileName, saveFile } from './save-file.ts';

interface ExportState {
  /** What is being made, in words; null for nothing. */
  readonly making: string | null;
  /** 0 to 1. */
  readonly share: number;
  /** How the last save ended. */
  readonly notice: string | null;
  readonly bad: boolean;
}

/** The one save that goes on, and how the last one ended. */
export const useExport = create<ExportState>(() => ({ making: null, share: 0, notice: null, bad: false }));

let stop = new AbortController();

export const cancelExport = (): void => stop.abort();

/** What is to be saved: null when it was stopped. */
export interface Made {
  readonly title: string;
  readonly ending: string;
  readonly content: string | Uint8Array;
}

/** Makes something and saves it; one at a time. Says how it ended and never rejects. */
export async function makeAndSave(
  making: string,
  make: (signal: AbortSignal, tell: (share: number) => void) => Promise<Made | null>,
): Promise<void> {
  if (useExport.getState().making !== null) return;
  stop = new AbortController();
  useExport.setState({ making, share: 0, notice: null, bad: false });
  try {
    const made = await make(stop.signal, (share) => useExport.setState({ share }));
    const name = made === null ? null : await saveFile(fileName(made.title, made.ending), made.content);
    const saved = name === null ? null : t('lecture.save.saved', { name });
    const notice = made === null ? t('lecture.save.stopped') : saved;
    useExport.setState({ notice });
  } catch (fault) {
    const why = faultText(fault);
    useExport.setState({ notice: t('lecture.save.notSaved', { why }), bad: true });
  } finally {
    useExport.setState({ making: null });
  }
}
