import react from '@vitejs/plugin-react';
import path from 'node:path';
import { defineConfig } from 'vite';

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react()],
  build: {
    outDir: path.join(import.meta.dirname, '..', 'dist', 'web'),
    emptyOutDir: true,
    target: 'es2022',
    sourcemap: false,
    chunkSizeWarningLimit: 900,
  },
  worker: { format: 'es' },
  // For work on the screens: the API of a server started beside it.
  server: { proxy: { '/api': 'http://127.0.0.1:4600' } },
});
