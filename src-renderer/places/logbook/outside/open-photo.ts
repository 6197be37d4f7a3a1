import { t } from '../../../i18n/text.ts';

/** A photograph that lies in this window only: its address is one that the window itself made and takes back. */
export interface Photo {
  readonly name: string;
  readonly url: string;
  /** The picture as it was chosen, for the case that the person asks to keep it. */
  readonly file: Blob;
  readonly width: number;
  readonly height: number;
}

const LARGEST_BYTES = 60_000_000;
/** Above this a picture would take more memory than it is worth: 4 bytes a pixel. */
const MOST_PIXELS = 120_000_000;

/**
 * Opens a picture that the person chose. It is decoded once, so that a file that is no picture is told here and not later.
 *
 * @throws Error with a line for the person
 */
export async function openPhoto(file: File): Promise<Photo> {
  const { name } = file;
  if (file.size > LARGEST_BYTES) {
    throw new Error(t('logbook.outside.fileTooLarge', { file: name, size: LARGEST_BYTES / 1e6 }));
  }
  const bitmap = await createImageBitmap(file).catch(() => null);
  if (bitmap === null) throw new Error(t('logbook.outside.noPicture', { file: name }));
  const { width, height } = bitmap;
  bitmap.close();
  if (width * height > MOST_PIXELS) {
    throw new Error(t('logbook.outside.tooManyPixels', { file: name, count: MOST_PIXELS / 1e6 }));
  }
  return { name, url: URL.createObjectURL(file), file, width, height };
}

export const closePhoto = (photo: Photo | null): void => {
  if (photo !== null) URL.revokeObjectURL(photo.url);
};
