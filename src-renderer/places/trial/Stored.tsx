import { useSession } from '../../stores/session-store.ts';

/** Letters of a digest that are enough to tell two attempts apart by eye. */
const SHORT = 12;

/** Where the trial is kept and what proves it, as a line. */
export function Stored() {
  const keeping = useSession((state) => state.keeping);
  const digest = useSession((state) => state.result?.digest ?? '');
  if (window.rimwardHost === undefined) return <p className="hint">Not kept: the page runs by itself.</p>;
  if (keeping.state === 'not-kept') {
    return (
      <p className="problems" role="alert" data-testid="stored">
        Not kept yet: {keeping.why}. Trying again; leave this window open.
      </p>
    );
  }
  if (keeping.state !== 'finished') {
    return (
      <p role="status" data-testid="stored">
        Being stored
      </p>
    );
  }
  const { id, personName, seal } = keeping.summary;
  const sealWords = { fits: 'sealed, the seal fits', broken: 'the seal does not fit', unsealed: 'not sealed' }[seal];
  return (
    <p data-testid="stored" data-attempt={id}>
      Stored as {personName}’s trial <b>{id.slice(0, 8)}</b>: {sealWords}. End state{' '}
      <code>{digest.slice(0, SHORT)}</code>, which playing it again must give.
    </p>
  );
}
