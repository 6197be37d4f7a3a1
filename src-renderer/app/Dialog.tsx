import { type ReactNode, type RefObject, useEffect, useRef } from 'react';
import { t } from '../i18n/text.ts';

/** Opens with its beginning in view: a dialog otherwise scrolls to the first thing that takes the keyboard. */
function openAtTop(dialog: HTMLDialogElement): void {
  if (dialog.open) return;
  dialog.showModal();
  dialog.focus({ preventScroll: true });
  dialog.scrollTop = 0;
}

/** A dialog over the page that is on it only while it is open. */
export function Dialog({
  title,
  testid,
  onClose,
  children,
}: {
  readonly title: string;
  readonly testid: string;
  onClose(): void;
  readonly children: ReactNode;
}) {
  const dialog: RefObject<HTMLDialogElement | null> = useRef(null);
  useEffect(() => {
    if (dialog.current !== null) openAtTop(dialog.current);
  }, []);
  return (
    <dialog ref={dialog} className={testid} tabIndex={-1} aria-label={title} data-testid={testid} onClose={onClose}>
      <h2>{title}</h2>
      {children}
      <form method="dialog" className="dialog-end">
        <button type="submit" className="first">
          {t('common.close')}
        </button>
      </form>
    </dialog>
  );
}
