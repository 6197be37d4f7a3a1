/** Keeping an opening from outside on this machine, and finding it again. */
import type { OutsideOpening } from '../../../../src-main/ipc/contract.ts';
import { t } from '../../../i18n/text.ts';
import { storeHost } from '../store-host.ts';
import type { MeasuredOutside } from './measure-outside.ts';
import { openPhoto, type Photo } from './open-photo.ts';
import type { Outside } from './use-outside.ts';

/** As the program allows it. */
export const LARGEST_KEPT_BYTES = 12_000_000;

/** The bytes as base64, without the address in front of them. */
function base64Of(blob: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).replace(/^[^,]*,/, ''));
    reader.onerror = () => reject(new Error(t('logbook.outside.photoUnread')));
    reader.readAsDataURL(blob);
  });
}

/** @param withPhoto only when the person asked for it */
export async function keepOutside(
  { source, marks, target }: Outside,
  { outline_mm }: MeasuredOutside,
  name: string,
  withPhoto: boolean,
): Promise<void> {
  const photo = source.kind === 'photo' ? source.photo : null;
  if (withPhoto && photo !== null && photo.file.size > LARGEST_KEPT_BYTES) {
    throw new Error(t('logbook.outside.photoTooLarge', { size: LARGEST_KEPT_BYTES / 1e6 }));
  }
  const opening: OutsideOpening = {
    rimwardOutside: 1,
    name: name.slice(0, 200),
    keptAt: new Date().toISOString(),
    outline_mm,
    target_mm: Number(target.target_mm),
    optic_mm: Number(target.optic_mm),
    marks: photo === null ? null : { ...marks, known_mm: Number(marks.known_mm) },
  };
  await storeHost().keepOutsideOpening(opening, withPhoto && photo !== null ? await base64Of(photo.file) : null);
}

/** An opening that was kept, with its photograph opened again where there is one. */
export async function readKept(
  id: string,
): Promise<{ readonly opening: OutsideOpening; readonly photo: Photo | null }> {
  const { opening, photo } = await storeHost().loadOutsideOpening(id);
  if (photo === null) return { opening, photo: null };
  const bytes = Uint8Array.from(atob(photo), (letter) => letter.charCodeAt(0));
  return { opening, photo: await openPhoto(new File([bytes], opening.name)) };
}
