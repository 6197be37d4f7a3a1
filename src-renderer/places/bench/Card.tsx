import type { ReactNode } from 'react';
import { t } from '../../i18n/text.ts';
import { type CardName, useView } from '../../stores/view-store.ts';
import { Explained, type NumberId } from '../../ui/Explained.tsx';

/** A card at the side of the stage; folds away to a narrow strip with its name. */
export function Card({
  name,
  title,
  children,
}: {
  readonly name: CardName;
  readonly title: string;
  readonly children: ReactNode;
}) {
  const open = useView((state) => state.cardOpen[name]);
  const setOpen = useView((state) => state.setCardOpen);
  return (
    <aside className={`card card-${name}${open ? '' : ' card-closed'}`} aria-label={title}>
      <button
        type="button"
        className="card-title"
        aria-expanded={open}
        onClick={() => setOpen(name, !open)}
        title={open ? t('bench.card.fold') : t('bench.card.show')}
      >
        <span aria-hidden="true" className="card-mark">
          {open ? '▾' : '▸'}
        </span>
        <span>{title}</span>
      </button>
      {open && <div className="card-body">{children}</div>}
    </aside>
  );
}

/** One line of a card: what it is, and how much. */
export function Line({
  label,
  of,
  children,
  testid,
}: {
  readonly label: string;
  /** The number that the label explains. */
  readonly of?: NumberId;
  readonly children: ReactNode;
  readonly testid?: string;
}) {
  return (
    <div className="line">
      <dt>{of === undefined ? label : <Explained of={of}>{label}</Explained>}</dt>
      <dd data-testid={testid}>{children}</dd>
    </div>
  );
}
