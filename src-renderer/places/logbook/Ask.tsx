import { type ReactNode, useEffect, useRef } from 'react';
import { t } from '../../i18n/text.ts';

/** Asks before something that cannot be undone. Escape and the second button leave all as it is. */
export function Ask({
  question,
  yes,
  onYes,
  onNo,
  children,
}: {
  readonly question: string;
  readonly yes: string;
  readonly onYes: () => void;
  readonly onNo: () => void;
  readonly children?: ReactNode;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} className="log-ask" aria-label={question} onClose={onNo} data-testid="ask">
      <h2>{question}</h2>
      {children}
      <div className="log-buttons">
        <button type="button" onClick={onYes} data-testid="ask-yes">
          {yes}
        </button>
        <button type="button" onClick={onNo} data-testid="ask-no">
          {t('logbook.does.leaveIt')}
        </button>
      </div>
    </dialog>
  );
}
