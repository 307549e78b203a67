import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { RouterProvider } from '@tanstack/react-router';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import '@fontsource-variable/atkinson-hyperlegible-next/index.css';
import './look/look.css';
import './look/app.css';
import { applyTheme } from './data/theme.ts';
import { loadOwnRules } from './data/own-rules.ts';
import { loadToday } from './data/today.ts';
import { router } from './routes.tsx';

const client = new QueryClient({
  // The server is on this machine: ask once, say plainly when it does not answer.
  defaultOptions: { queries: { retry: 1, staleTime: 10_000, refetchOnWindowFocus: false } },
});

const place = document.getElementById('app');
if (place === null) throw new Error('index.html has lost its #app');
applyTheme();
await Promise.all([loadToday(), loadOwnRules()]);
createRoot(place).render(
  <StrictMode>
    <QueryClientProvider client={client}>
      <RouterProvider router={router} />
    </QueryClientProvider>
  </StrictMode>,
);
