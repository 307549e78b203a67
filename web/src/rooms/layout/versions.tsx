import { memo } from 'react';
import { Link, useNavigate } from '@tanstack/react-router';
import { Button } from 'react-aria-components';
import { newId, type LayoutRecord } from '../../data/api.ts';
import { usePut } from '../../data/use.ts';
import { didEdit } from '../../parts/undo.tsx';

interface VersionsProps {
  readonly layout: LayoutRecord;
  /** The layout as it stands on the page. */
  readonly form: Record<string, unknown>;
  readonly versions: readonly LayoutRecord[];
}

/** The other versions of this program, and the way to keep this one beside a changed one. */
export const Versions = memo(function Versions({ layout, form, versions }: VersionsProps) {
  const { mutateAsync } = usePut('layouts');
  const navigate = useNavigate();
  const keep = async () => {
    const version = Math.max(...versions.map((l) => l.version), layout.version) + 1;
    const next = { ...layout, id: newId(), version, current: true, form, savedAt: new Date().toISOString() };
    await mutateAsync(next);
    await mutateAsync({ ...layout, form, current: false });
    didEdit(`Kept as version ${version}; this is it.`);
    await navigate({ to: '/layout/$id', params: { id: next.id } });
  };
  const others = versions.filter((l) => l.id !== layout.id);
  return (
    <p className="go noprint">
      <Button className="btn" onPress={() => void keep()}>
        Keep as a new version
      </Button>
      {others.map((l) => (
        <Link key={l.id} to="/layout/$id" params={{ id: l.id }}>
          version {l.version}
          {l.current ? ', current' : ''}
        </Link>
      ))}
    </p>
  );
});
