import type { ReactNode } from 'react';

interface TickProps {
  readonly checked: boolean;
  readonly disabled?: boolean;
  readonly onChange: (on: boolean) => void;
  readonly children: ReactNode;
}

/** A box to tick, with its words. */
export function Tick({ checked, disabled, onChange, children }: TickProps) {
  return (
    <label className="pick">
      <input
        type="checkbox"
        checked={checked}
        disabled={disabled ?? false}
        onChange={(e) => onChange(e.target.checked)}
      />{' '}
      {children}
    </label>
  );
}
