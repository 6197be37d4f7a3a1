import { t } from '../i18n/text.ts';
import type { ChartLine } from './chart-spec.ts';
import { lineLook, MARK_CORNERS } from './line-looks.ts';

interface LegendProps {
  readonly lines: readonly Pick<ChartLine, 'name'>[];
  /** Whether published values stand beside the curves. */
  readonly published?: boolean;
}

/** Which curve is which: a piece of it with its mark, and its name. */
export function Legend({ lines, published = false }: LegendProps) {
  if (lines.length === 0) return null;
  return (
    <ul className="chart-legend">
      {lines.map(({ name }, at) => (
        <li key={name}>
          <Swatch at={at} />
          {name}
        </li>
      ))}
      {published && (
        <li>
          <svg viewBox="0 0 34 12" width="34" height="12" aria-hidden="true">
            <path d="M1 6 H33 M1 2 V10 M33 2 V10" stroke="var(--missed)" strokeWidth="1.5" />
            <circle cx="17" cy="6" r="4.5" fill="var(--card)" stroke="var(--missed)" strokeWidth="1.5" />
          </svg>
          {t('common.chart.published')}
        </li>
      )}
    </ul>
  );
}

function Swatch({ at }: { readonly at: number }) {
  const { dash, mark, colour } = lineLook(at);
  const corners = MARK_CORNERS[mark];
  const paint = `var(${colour})`;
  return (
    <svg viewBox="0 0 34 12" width="34" height="12" aria-hidden="true">
      <line x1="1" y1="6" x2="33" y2="6" stroke={paint} strokeWidth="2" strokeDasharray={dash.join(' ')} />
      {corners === null ? (
        <circle cx="17" cy="6" r="4" fill={paint} />
      ) : (
        <polygon points={corners.map(([x, y]) => `${17 + 4 * x},${6 + 4 * y}`).join(' ')} fill={paint} />
      )}
    </svg>
  );
}
