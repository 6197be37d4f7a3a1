import { Trans } from 'react-i18next';
import { t } from '../../i18n/text.ts';
import { useSession } from '../../stores/session-store.ts';

const LINES = ['grasp', 'fold', 'pull', 'again'] as const;
const MARKS = { b: <b />, kbd: <kbd /> };

/** Five lines that are always at hand. The keys are those of tools/keys.ts. */
export function HowToTear() {
  const trial = useSession((state) => state.place === 'trial');
  return (
    <details className="how" open={!trial}>
      <summary>{t('bench.how.title')}</summary>
      <ol>
        {LINES.map((line) => (
          <li key={line}>
            <Trans i18nKey={`bench.how.${line}`} components={MARKS} />
          </li>
        ))}
        <li>
          <Trans i18nKey={trial ? 'bench.how.keysInTrial' : 'bench.how.keys'} components={MARKS} />
        </li>
      </ol>
    </details>
  );
}
