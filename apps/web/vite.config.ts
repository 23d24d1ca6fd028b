import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defaultClientConditions, defineConfig, type Plugin } from 'vite';
import { compression } from 'vite-plugin-compression2';
import { VitePWA } from 'vite-plugin-pwa';

/**
 * The worker that judges, built in one go with the page: both share the core's files, and a phone loads them once. A
 * worker built by itself would carry a copy.
 */
function judge(): Plugin {
  const module = here('src/judge/worker.ts');
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

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

interface Graph {
  getModuleInfo(id: string): { readonly importedIds: readonly string[] } | null;
}

/** Modules that one of these cannot start without, itself included. */
function needed(graph: Graph, from: readonly string[]): ReadonlySet<string> {
  const found = new Set<string>();
  const visit = (id: string): void => {
    if (found.has(id)) return;
    found.add(id);
    graph.getModuleInfo(id)?.importedIds.forEach(visit);
  };
  from.forEach(visit);
  return found;
}

/** What the first picture of the tanks needs, by file, each without what those before it have. */
const firstFiles = [
  'shared',
  'shared-tanks',
  'app',
  'sentences',
  'schemas',
  'domain',
  'rules',
  'folding',
  'tanks',
] as const;
type FirstFile = (typeof firstFiles)[number];

function modulesOf(graph: Graph): Readonly<Record<FirstFile, ReadonlySet<string>>> {
  const page = needed(graph, [here('src/main.tsx')]);
  const tanks = needed(graph, [here('src/tank/TanksPage.tsx')]);
  const folding = needed(graph, [here('src/judge/worker.ts')]);
  const schemas = needed(graph, [here('src/season/schemas.ts')]);
  const domain = needed(graph, [here('../../libs/domain/src/index.ts')]);
  // Pages that show a verdict must not wait for the rules themselves.
  const sentences = needed(graph, [here('../../libs/rules/src/in-words.ts')]);
  const rules = needed(graph, [here('../../libs/rules/src/index.ts')]);
  // The thread that judges must not have to load the page for something that both use.
  const shared = (of: ReadonlySet<string>) =>
    new Set([...of].filter((id) => folding.has(id) || domain.has(id) || rules.has(id)));
  return {
    shared: shared(page),
    'shared-tanks': shared(tanks),
    app: page,
    sentences,
    schemas,
    domain,
    rules,
    folding,
    tanks,
  };
}

/**
 * The first picture in few files, and what the other pages share in one more: on one bar of reception a file costs more
 * for the asking than for its size.
 */
function fewFiles() {
  // An entry is run by whoever loads the file that it is in.
  const entries = new Set([here('src/main.tsx'), here('src/judge/worker.ts')]);
  let modules: ReturnType<typeof modulesOf> | null = null;
  const first = firstFiles.map((file, index) => ({
    debugName: file,
    priority: firstFiles.length - index,
    name: (id: string, graph: Graph): string | null => {
      modules ??= modulesOf(graph);
      return modules[file].has(id) && !entries.has(id) ? file : null;
    },
  }));
  // What many of the other pages use.
  return [...first, { name: 'pages', minShareCount: 4, test: /\/(apps\/web|libs)\/.*src\// }];
}

// Workspaces are built from their sources, as everywhere else. Nothing is inlined: the service's content security
// policy allows scripts and styles from its own address only.
export default defineConfig({
  resolve: {
    conditions: ['source', ...defaultClientConditions],
    alias: [{ find: /^temporal-polyfill$/, replacement: here('src/season/temporal.ts') }],
  },
  build: {
    ...{ target: 'es2022', assetsInlineLimit: 0, chunkSizeWarningLimit: 700 },
    rolldownOptions: { output: { codeSplitting: { groups: fewFiles() } } },
    modulePreload: {
      polyfill: false,
      // The core is loaded in the worker too, which has no document to announce files in.
      resolveDependencies: (_address, files, { hostId }) =>
        /shared|schemas|domain|rules|folding|judge/.test(hostId) ? [] : files,
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
    // Once, as small as they get, and not with each request.
    compression({ algorithms: ['gzip', 'brotliCompress'], include: /assets\/.*\.(js|css)$/, threshold: 1024 }),
  ],
});
