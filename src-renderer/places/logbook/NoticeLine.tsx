import { t } from '../../i18n/text.ts';
import { say, useNotice } from './save-text.ts';

/** The last thing that was saved, or that could not be done. */
export function NoticeLine() {
  const { notice, bad } = useNotice();
  if (notice === null) return null;
  return (
    <p
      className={bad ? 'log-notice log-notice-bad' : 'log-notice'}
      role={bad ? 'alert' : 'status'}
      data-testid="notice"
    >
      <span>
        {bad ? '✕ ' : ''}
        {notice}
      </span>
      <button type="button" onClick={() => say(null)}>
        {t('logbook.does.putAway')}
      </button>
    </p>
  );
}
