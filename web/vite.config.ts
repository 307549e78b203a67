import react from '@vitejs/plugin-react';
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { defineConfig, type Plugin } from 'vite';

/** Character maps and metrics that the PDF library asks for by name when a file needs them; served from here. */
function pdfTables(): Plugin {
  const root = path.dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json'));
  return {
    name: 'pdf-tables',
    apply: 'build',
    generateBundle() {
      for (const folder of ['cmaps', 'standard_fonts']) {
        for (const file of readdirSync(path.join(root, folder))) {
          const source = readFileSync(path.join(root, folder, file));
          this.emitFile({ type: 'asset', fileName: `pdf/${folder}/${file}`, source });
        }
      }
    },
  };
}

export default defineConfig({
  root: import.meta.dirname,
  plugins: [react(), pdfTables()],
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
