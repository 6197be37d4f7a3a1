import { t } from '../../../i18n/text.ts';
import { useTwin } from '../twin/twin-store.ts';

/** Names of the eyes, for the name of a file. */
export function viewTitle(): string {
  const { left, right } = useTwin.getState();
  if (left !== null && right !== null) return t('lecture.save.two', { left: left.label, right: right.label });
  return left?.label ?? '';
}
