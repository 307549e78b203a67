import { createContext, useContext, useEffect, useId, useRef, useState, type ReactNode } from 'react';
import { createPortal } from 'react-dom';
import { words } from '../words/index.ts';

interface Asking {
  /** Which number is open; null: none. */
  readonly open: string | null;
  readonly setOpen: (id: string | null) => void;
  /** Where the panel stands: beneath the figure, or at the foot of the row. */
  readonly place: HTMLElement | null;
}

const Place = createContext<Asking | null>(null);

/** Everything in it can hold numbers that say why; their one panel stands at its end. */
export function Asks({ children }: { children: ReactNode }) {
  const [open, setOpen] = useState<string | null>(null);
  const [place, setPlace] = useState<HTMLElement | null>(null);
  return (
    <Place.Provider value={{ open, setOpen, place }}>
      {children}
      <div ref={setPlace} className="asked noprint" role="status" />
    </Place.Provider>
  );
}

interface WhyProps {
  /** The head of the panel: “Why 62.96?” stands by itself, this names the number. */
  readonly about: string;
  readonly children: ReactNode;
  /** What hovering shows; absent: that it can be asked. */
  readonly hint?: string;
  /** What the number is, from what, under which rule, and the source. */
  readonly answer: ReactNode;
}

/** A number that can be asked why: pressed, it opens the panel of the place it stands in. Escape closes it. */
export function Why({ about, children, hint, answer }: WhyProps) {
  const id = useId();
  const asking = useContext(Place);
  const button = useRef<HTMLButtonElement>(null);
  const isOpen = asking?.open === id;
  const close = () => {
    asking?.setOpen(null);
    button.current?.focus();
  };
  useEffect(() => {
    if (!isOpen) return undefined;
    const onKey = (event: KeyboardEvent) => {
      if (event.key === 'Escape') close();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  });
  return (
    <>
      <button
        type="button"
        ref={button}
        className="ask-why"
        aria-expanded={isOpen}
        title={hint ?? words.why}
        onClick={() => asking?.setOpen(isOpen ? null : id)}
      >
        <span>{children}</span>
      </button>
      {isOpen &&
        asking.place !== null &&
        createPortal(
          <div className="why sheet">
            <div className="top">
              {/* It may stand right under the name of the page. */}
              <h3 aria-level={2}>{about}</h3>
              <button type="button" className="linklike" onClick={close}>
                {words.close}
              </button>
            </div>
            <div className="stack">{answer}</div>
          </div>,
          asking.place,
        )}
    </>
  );
}
