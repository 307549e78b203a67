import type { Cause } from '../../../src/reading/index.ts';

/** The mark of each cause inside an 8 × 8 tile; told apart by form, never by hue. */
const MARKS: Readonly<Record<Cause, React.ReactNode>> = {
  content: <rect className="dot" x="1" y="1" width="4.5" height="4.5" />,
  rotation: <path className="fg" strokeWidth="1.4" d="M1 0a4 4 0 0 1 0 8M5 0a4 4 0 0 1 0 8" />,
  edge: <path className="fg" strokeWidth="1.6" d="M-1 -1L9 9M-1 7L1 9M7 -1L9 1" />,
  level: <path className="fg" strokeWidth="1.6" d="M0 2H8M0 6H8" />,
  V: <path className="fg" strokeWidth="1.5" d="M0 1L4 6L8 1" />,
  'no-value': null,
  repeat: <path className="fg" strokeWidth="1.3" d="M1 0V8M3.5 0V8" />,
  'second-half': <rect className="dot" x="4" width="4" height="8" />,
  fall: <path className="fg" strokeWidth="1.6" d="M2 0V5M6 4V8M6 0V1" />,
  execution: (
    <>
      <circle className="dot" cx="2" cy="2" r="1.25" />
      <circle className="dot" cx="6" cy="6" r="1.25" />
    </>
  ),
  deduction: <path className="fg" strokeWidth="1.2" d="M0 0L8 8M8 0L0 8" />,
  bonus: <path className="fg" strokeWidth="1.4" d="M4 1.5V6.5M1.5 4H6.5" />,
  components: <path className="fg" strokeWidth="1.5" d="M0 3q2-3 4 0t4 0M0 7q2-3 4 0t4 0" />,
};

type Side = 'W' | 'L';

/** The fill of a cause: `W` came on top, `L` missing. */
export const fillOf = (cause: Cause, side: Side): string => `url(#${side}-${cause})`;

/** Defines the patterns once per page; figures refer to them by id. */
export function Patterns() {
  const sides: readonly Side[] = ['L', 'W'];
  return (
    <svg width="0" height="0" style={{ position: 'absolute' }} aria-hidden="true">
      <defs>
        {sides.flatMap((side) =>
          Object.entries(MARKS).map(([cause, mark]) => (
            <pattern
              key={`${side}-${cause}`}
              id={`${side}-${cause}`}
              className={side}
              width="8"
              height="8"
              patternUnits="userSpaceOnUse"
            >
              <rect className="bg" width="8" height="8" />
              {mark}
            </pattern>
          )),
        )}
      </defs>
    </svg>
  );
}

/** The small sample of a cause beside its name. */
export function Swatch({ cause, side }: { cause: Cause; side: Side }) {
  return (
    <svg className="sw" viewBox="0 0 28 14" aria-hidden="true">
      <rect x="0.8" y="0.8" width="26.5" height="12.5" fill={fillOf(cause, side)} />
      <rect className={side === 'L' ? 'ol' : 'ow'} x="0.8" y="0.8" width="26.5" height="12.5" />
    </svg>
  );
}
