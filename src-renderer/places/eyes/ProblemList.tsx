import type { Problem } from '../../../physics/index.ts';
import { t } from '../../i18n/text.ts';
import { judged } from '../../ui/judged-words.ts';

/** Everything that is wrong with the scenario: where, what stands there, what may. A line leads to its field. */
export function ProblemList({ problems, onGo }: { readonly problems: readonly Problem[]; onGo(path: string): void }) {
  if (problems.length === 0) {
    return (
      <p className="eyes-met" data-testid="sound">
        <span aria-hidden="true">✓</span> {t('eyes.problems.sound')}
      </p>
    );
  }
  return (
    <section className="eyes-problems" aria-label={t('eyes.problems.label')} data-testid="problems">
      <h2>{t('eyes.problems.count', { count: problems.length })}</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">{t('eyes.problems.place')}</th>
            <th scope="col">{t('eyes.problems.found')}</th>
            <th scope="col">{t('eyes.problems.allowed')}</th>
          </tr>
        </thead>
        <tbody>
          {problems.map(judged).map(({ path, found, allowed }) => (
            <tr key={`${path} ${found} ${allowed}`}>
              <td>
                <button type="button" className="eyes-go" onClick={() => onGo(path)}>
                  {path === '' ? t('eyes.problems.whole') : path}
                </button>
              </td>
              <td>{found}</td>
              <td>{allowed}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
