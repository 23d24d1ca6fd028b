import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defaultClientConditions, defineConfig, type Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';

/**
 * The worker that judges, built in one go with the page: both share the core's files, and a phone loads them once. A
 * worker built by itself would carry a copy.
 */
function judge(): Plugin {
  const module = fileURLToPath(new URL('src/judge/worker.ts', import.meta.url));
  let building = false;
  return {
    name: 'furrowmark-judge',
    configResolved: ({ command }) => {
      building = command === 'build';
    },
    resolveId: (id) => (id === 'virtual:judge' ? '\0judge' : undefined),
    load(id) {
      if (id !== '\0judge') return undefined;
      if (!building) return "export default '/src/judge/worker.ts';";
      const file = this.emitFile({ type: 'chunk', id: module, name: 'judge' });
      return `export default import.meta.ROLLUP_FILE_URL_${file};`;
    },
  };
}

// Workspaces are built from their sources, as everywhere else. Nothing is inlined: the service's content security
// policy allows scripts and styles from its own address only.
export default defineConfig({
  resolve: {
    conditions: ['source', ...defaultClientConditions],
    alias: [
      { find: /^temporal-polyfill$/, replacement: fileURLToPath(new URL('src/season/temporal.ts', import.meta.url)) },
    ],
  },
  build: {
    ...{ target: 'es2022', assetsInlineLimit: 0, chunkSizeWarningLimit: 700 },
    modulePreload: {
      polyfill: false,
      // The core is loaded in the worker too, which has no document to announce files in.
      resolveDependencies: (_address, files, { hostId }) => (/engine|judge|src-/.test(hostId) ? [] : files),
    },
  },
  server: { proxy: { '/api': process.env['FURROWMARK_URL'] ?? 'http://127.0.0.1:3000' } },
  plugins: [
    react(),
    judge(),
    VitePWA({
      // A new version waits for the person's word: never under somebody's fingers, and never over a full queue.
      registerType: 'prompt',
      injectRegister: false,
      manifest: {
        name: 'Furrowmark',
        short_name: 'Furrowmark',
        description: 'Records of aerated compost tea, from water to harvest',
        lang: 'en',
        display: 'standalone',
        orientation: 'any',
        start_url: '/',
        scope: '/',
        id: '/',
        background_color: '#fbfaf6',
        theme_color: '#12352b',
        icons: [
          { src: '/icon-192.png', sizes: '192x192', type: 'image/png', purpose: 'any' },
          { src: '/icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
          { src: '/icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
        ],
      },
      // Our own service worker (src/sw): it keeps the app's files, and tells what is due.
      strategies: 'injectManifest',
      srcDir: 'src/sw',
      filename: 'sw.ts',
      injectManifest: { globPatterns: ['**/*.{html,js,css,svg,png,webmanifest}'], rollupFormat: 'iife' },
    }),
  ],
});
