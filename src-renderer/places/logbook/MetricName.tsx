import { Explained } from '../../ui/Explained.tsx';
import { isMetric, metricTitle } from './metric-words.ts';

/** The name of a metric, which says on hover and focus what it is; one that this program does not know is only named. */
export const MetricName = ({ of }: { readonly of: string }) =>
  isMetric(of) || of === 'opticUncovered_clock_h' ? <Explained of={of}>{metricTitle(of)}</Explained> : of;
