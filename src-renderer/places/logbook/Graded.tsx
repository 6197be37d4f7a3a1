import type { GradedItem } from '../../../physics/index.ts';
import { gradeSentence } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { MetricName } from './MetricName.tsx';
import { limitWords, metricText } from './metric-words.ts';

/** Every tolerance of the scenario: what came, what was allowed, met or not, with the reason. */
export function Graded({ graded }: { readonly graded: readonly GradedItem[] }) {
  if (graded.length === 0) return <p className="log-quiet">{t('logbook.graded.none')}</p>;
  return (
    <table className="log-table" aria-label={t('logbook.graded.label')}>
      <thead>
        <tr>
          <th scope="col">{t('logbook.graded.tolerance')}</th>
          <th scope="col" className="log-figure">
            {t('logbook.graded.came')}
          </th>
          <th scope="col">{t('logbook.graded.allowed')}</th>
          <th scope="col">{t('logbook.graded.met')}</th>
        </tr>
      </thead>
      <tbody>
        {graded.map((item) => (
          <tr
            key={`${item.metric}-${item.atLeast}-${item.atMost}`}
            title={gradeSentence(item)}
            data-testid={`graded-${item.metric}`}
          >
            <td>
              <MetricName of={item.metric} />
            </td>
            <td className="log-figure">{metricText(item.metric, item.value)}</td>
            <td>{limitWords(item)}</td>
            <td className={item.met ? 'log-mark log-met' : 'log-mark log-missed'}>
              {t(item.met ? 'logbook.met.yes' : 'logbook.met.no')}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
