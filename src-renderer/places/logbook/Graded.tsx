import type { GradedItem } from '../../../physics/index.ts';
import { limitWords, metricText, metricTitle } from './metric-words.ts';

/** Every tolerance of the scenario: what came, what was allowed, met or not, with the reason. */
export function Graded({ graded }: { readonly graded: readonly GradedItem[] }) {
  if (graded.length === 0) return <p className="log-quiet">This scenario sets no tolerances.</p>;
  return (
    <table className="log-table" aria-label="Tolerances">
      <thead>
        <tr>
          <th scope="col">Tolerance</th>
          <th scope="col" className="log-figure">
            Came to
          </th>
          <th scope="col">Allowed</th>
          <th scope="col">Met</th>
        </tr>
      </thead>
      <tbody>
        {graded.map((item) => (
          <tr
            key={`${item.metric}-${item.atLeast}-${item.atMost}`}
            title={item.reason}
            data-testid={`graded-${item.metric}`}
          >
            <td>{metricTitle(item.metric)}</td>
            <td className="log-figure">{metricText(item.metric, item.value)}</td>
            <td>{limitWords(item)}</td>
            <td className={item.met ? 'log-met' : 'log-missed'}>{item.met ? '✓ met' : '✕ missed'}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
