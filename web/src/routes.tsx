import { createRootRoute, createRoute, createRouter, lazyRouteComponent, Outlet } from '@tanstack/react-router';
import { Fragment } from 'react';
import { Frame, Row } from './parts/frame.tsx';
import { UndoLine, useUndone } from './parts/undo.tsx';
import { Skaters } from './rooms/skaters/skaters.tsx';

function Root() {
  const undone = useUndone();
  return (
    <>
      <Frame>
        <Fragment key={undone}>
          <Outlet />
        </Fragment>
      </Frame>
      <UndoLine />
    </>
  );
}

const root = createRootRoute({
  component: Root,
  notFoundComponent: () => (
    <Row about="Not here">
      <h1>There is no page at this address</h1>
      <p>The four rooms stand above, on a phone at the foot; Find reaches everything else.</p>
    </Row>
  ),
});

const at = <P extends string>(path: P) => ({ getParentRoute: () => root, path });

/** The first screen stands in the first file; every other screen is loaded when it is opened. */
const tree = root.addChildren([
  createRoute({ ...at('/'), component: Skaters }),
  createRoute({
    ...at('/skaters/new'),
    component: lazyRouteComponent(() => import('./rooms/skaters/skater-form.tsx'), 'NewSkater'),
  }),
  createRoute({
    ...at('/skaters/$id'),
    component: lazyRouteComponent(() => import('./rooms/skaters/person.tsx'), 'PersonPage'),
  }),
  createRoute({
    ...at('/skaters/$id/new-layout'),
    component: lazyRouteComponent(() => import('./rooms/skaters/new-plans.tsx'), 'NewLayout'),
  }),
  createRoute({
    ...at('/skaters/$id/new-steps'),
    component: lazyRouteComponent(() => import('./rooms/skaters/new-plans.tsx'), 'NewSteps'),
  }),
  createRoute({
    ...at('/skaters/$id/new-spins'),
    component: lazyRouteComponent(() => import('./rooms/skaters/new-plans.tsx'), 'NewSpins'),
  }),
  createRoute({
    ...at('/reading/$id'),
    component: lazyRouteComponent(() => import('./rooms/reading/reading-page.tsx'), 'ReadingPage'),
  }),
  createRoute({
    ...at('/reading/$id/hers'),
    component: lazyRouteComponent(() => import('./rooms/reading/reading-page.tsx'), 'SkaterPage'),
  }),
  createRoute({
    ...at('/layout/$id'),
    component: lazyRouteComponent(() => import('./rooms/layout/layout-page.tsx'), 'LayoutPage'),
  }),
  createRoute({
    ...at('/planb/$id'),
    component: lazyRouteComponent(() => import('./rooms/planb/plan-b.tsx'), 'PlanB'),
  }),
  createRoute({
    ...at('/steps/$id'),
    component: lazyRouteComponent(() => import('./rooms/steps/step-plan.tsx'), 'StepPlanPage'),
  }),
  createRoute({
    ...at('/spins/$id'),
    component: lazyRouteComponent(() => import('./rooms/spins/spin-plan.tsx'), 'SpinPlanPage'),
  }),
  createRoute({ ...at('/events'), component: lazyRouteComponent(() => import('./rooms/events/events.tsx'), 'Events') }),
  createRoute({
    ...at('/events/new'),
    component: lazyRouteComponent(() => import('./rooms/events/event-page.tsx'), 'NewEvent'),
  }),
  createRoute({
    ...at('/events/$id'),
    component: lazyRouteComponent(() => import('./rooms/events/event-page.tsx'), 'EventPage'),
  }),
  createRoute({
    ...at('/events/$id/day'),
    component: lazyRouteComponent(() => import('./rooms/events/day-sheet.tsx'), 'DaySheet'),
  }),
  createRoute({
    ...at('/practice'),
    component: lazyRouteComponent(() => import('./rooms/practice/practice.tsx'), 'Practice'),
  }),
  createRoute({
    ...at('/practice/log/$id'),
    component: lazyRouteComponent(() => import('./rooms/practice/log.tsx'), 'Log'),
  }),
  createRoute({ ...at('/rules'), component: lazyRouteComponent(() => import('./rooms/rules/rules.tsx'), 'Rules') }),
  createRoute({ ...at('/find'), component: lazyRouteComponent(() => import('./rooms/find/find.tsx'), 'Find') }),
  createRoute({
    ...at('/settings'),
    component: lazyRouteComponent(() => import('./rooms/find/settings.tsx'), 'Settings'),
  }),
  createRoute({ ...at('/add'), component: lazyRouteComponent(() => import('./rooms/add/add-sheet.tsx'), 'AddSheet') }),
]);

export const router = createRouter({ routeTree: tree, defaultPreload: 'intent' });

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router;
  }
}
