import { Link, useLocation } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import { RefusedLine } from './refused.tsx';
import { Asks } from './why.tsx';
import { words } from '../words/index.ts';

const ROOMS = [
  { to: '/', name: words.rooms.skaters },
  { to: '/events', name: words.rooms.events },
  { to: '/practice', name: words.rooms.practice },
  { to: '/rules', name: words.rooms.rules },
] as const;

const OF_A_SKATER = /^\/(skaters|reading|layout|planb|steps|spins)\//;

/** The room that an address belongs to: what is about one skater stands in the room Skaters. */
function roomOf(path: string): string {
  if (path === '/' || OF_A_SKATER.test(path)) return '/';
  return ROOMS.find(({ to }) => to !== '/' && path.startsWith(to))?.to ?? '';
}

function Rooms({ low }: { low?: boolean }) {
  const here = roomOf(useLocation().pathname);
  return (
    <nav
      className={low === true ? 'rooms low' : 'rooms'}
      aria-label={low === true ? words.rooms.atTheFoot : words.rooms.rooms}
    >
      {ROOMS.map(({ to, name }) => (
        <Link
          key={to}
          to={to}
          activeProps={{ 'aria-current': undefined }}
          {...(to === here ? { 'aria-current': 'page' as const } : {})}
        >
          {name}
        </Link>
      ))}
    </nav>
  );
}

/** The frame of every page: name, four rooms, two tools; on a phone the rooms stand at the foot. */
export function Frame({ children }: { children: ReactNode }) {
  return (
    <>
      <a className="skip" href="#main">
        {words.toThePage}
      </a>
      <header className="mast">
        <Link className="name" to="/">
          Edgeledger
        </Link>
        <Rooms />
        <div className="tools">
          <Link to="/find">{words.find}</Link>
          <Link to="/add">{words.addASheet}</Link>
        </div>
      </header>
      <main className="leaf" id="main">
        <RefusedLine />
        {children}
      </main>
      <Rooms low />
    </>
  );
}

interface RowProps {
  /** The margin: what this row is about; it is the row's heading. */
  readonly about: string;
  readonly aside?: ReactNode;
  readonly notes?: ReactNode;
  /** The body reaches over the notes. */
  readonly wide?: boolean;
  readonly className?: string;
  readonly children: ReactNode;
}

/** One row of a leaf: margin, double rule, body, notes. */
export function Row({ about, aside, notes, wide, className, children }: RowProps) {
  return (
    <section className={['row', wide === true ? 'wide' : '', className ?? ''].join(' ').trim()}>
      <h2 className="side">
        {about}
        {aside !== undefined && <span className="small quiet">{aside}</span>}
      </h2>
      <div className="body">
        <Asks>{children}</Asks>
      </div>
      {notes !== undefined && notes !== false && <aside className="notes">{notes}</aside>}
    </section>
  );
}
