import type { Problem } from '../../../physics/index.ts';

/** Everything that is wrong with the scenario: where, what stands there, what may. A line leads to its field. */
export function ProblemList({ problems, onGo }: { readonly problems: readonly Problem[]; onGo(path: string): void }) {
  if (problems.length === 0) {
    return (
      <p className="eyes-met" data-testid="sound">
        <span aria-hidden="true">✓</span> No problems: it can be played and saved.
      </p>
    );
  }
  return (
    <section className="eyes-problems" aria-label="Problems" data-testid="problems">
      <h3>{problems.length === 1 ? '1 problem' : `${problems.length} problems`}</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">Place</th>
            <th scope="col">Found</th>
            <th scope="col">Allowed</th>
          </tr>
        </thead>
        <tbody>
          {problems.map(({ path, found, allowed }) => (
            <tr key={`${path} ${found} ${allowed}`}>
              <td>
                <button type="button" className="eyes-go" onClick={() => onGo(path)}>
                  {path === '' ? 'the whole' : path}
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
