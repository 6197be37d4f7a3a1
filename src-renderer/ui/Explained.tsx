import {
  autoUpdate,
  FloatingPortal,
  flip,
  offset,
  safePolygon,
  shift,
  size,
  useFloating,
  useFocus,
  useHover,
  useInteractions,
  useRole,
} from '@floating-ui/react';
import { type ReactNode, useCallback, useEffect, useState } from 'react';
import type { Messages } from '../i18n/languages.ts';
import { t } from '../i18n/text.ts';
import './explained.css';

/** A number that has an explanation. */
export type NumberId = keyof Messages['numbers'];

/** Long enough that a hand that crosses the cards calls up nothing. */
const HOVER_ms = 250;

/** Closes on Escape wherever the focus is; the key then means nothing else, so it does not open the jaws as well. */
function useEscape(open: boolean, close: () => void): void {
  useEffect(() => {
    if (!open) return;
    const pressed = (event: KeyboardEvent) => {
      if (event.key !== 'Escape') return;
      event.preventDefault();
      event.stopPropagation();
      close();
    };
    // before everybody else, a dialog among them
    document.addEventListener('keydown', pressed, true);
    return () => document.removeEventListener('keydown', pressed, true);
  }, [open, close]);
}

/** What floats over a label: opens on hover and on focus, stays while the pointer is on it, and moves nothing on the page. */
function useExplanation() {
  const [open, setOpen] = useState(false);
  const floating = useFloating({
    open,
    onOpenChange: setOpen,
    strategy: 'fixed',
    placement: 'top-start',
    whileElementsMounted: autoUpdate,
    middleware: [
      offset(4),
      flip(),
      shift({ padding: 8 }),
      // a large text in a low window scrolls inside
      size({
        padding: 8,
        apply: ({ availableHeight, elements }) => {
          elements.floating.style.maxHeight = `${Math.max(80, availableHeight)}px`;
        },
      }),
    ],
  });
  const { context } = floating;
  const interactions = useInteractions([
    useHover(context, { delay: { open: HOVER_ms, close: 0 }, handleClose: safePolygon() }),
    useFocus(context),
    useRole(context, { role: 'tooltip' }),
  ]);
  useEscape(open, () => setOpen(false));
  return { open, floating, interactions };
}

/**
 * The label of a number that says, on hover and on focus, what the number is and where it comes from. It is a button, so it
 * must not stand inside another control or a `label`: put it beside them.
 */
export function Explained({ of, children }: { readonly of: NumberId; readonly children: ReactNode }) {
  const { open, floating, interactions } = useExplanation();
  const [label, setLabel] = useState<HTMLElement | null>(null);
  const { refs, floatingStyles } = floating;
  // the same one each time: the cards are drawn ten times a second, and a label that seems new forgets the pointer on it
  const take = useCallback(
    (element: HTMLElement | null) => {
      refs.setReference(element);
      setLabel(element);
    },
    [refs],
  );
  return (
    <>
      <button type="button" className="explained" data-number={of} ref={take} {...interactions.getReferenceProps()}>
        {children}
      </button>
      {open && (
        // inside an open dialog, since nothing outside lies over it
        <FloatingPortal root={label?.closest('dialog') ?? undefined}>
          <div
            ref={refs.setFloating}
            className="explanation"
            data-testid="explanation"
            style={floatingStyles}
            {...interactions.getFloatingProps()}
          >
            <Explanation of={of} />
          </div>
        </FloatingPortal>
      )}
    </>
  );
}

/** Name, definition and source of a number. */
export function Explanation({ of }: { readonly of: NumberId }) {
  return (
    <>
      <b>{t(`numbers.${of}.name`)}</b>
      <span className="explanation-line">{t(`numbers.${of}.definition`)}</span>
      <small className="explanation-line">{t('common.explained.source', { source: t(`numbers.${of}.source`) })}</small>
    </>
  );
}
