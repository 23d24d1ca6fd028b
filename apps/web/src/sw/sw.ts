import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from 'workbox-precaching';
import { NavigationRoute, registerRoute } from 'workbox-routing';
import { tell } from '../alerts/tell.ts';

// The app on the device: its files, each version whole, and what it tells of while nobody looks at it.

declare const self: ServiceWorkerGlobalScope & {
  readonly __WB_MANIFEST: (string | { readonly url: string; readonly revision: string | null })[];
};

cleanupOutdatedCaches();
precacheAndRoute(self.__WB_MANIFEST);
registerRoute(
  new NavigationRoute(createHandlerBoundToURL('/index.html'), {
    denylist: [/^\/api\//, /^\/page\//, /^\/(healthz|readyz|metrics)/],
  }),
);

self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));

self.addEventListener('message', (event) => {
  const said: unknown = event.data;
  const type: unknown = typeof said === 'object' && said !== null ? Reflect.get(said, 'type') : undefined;
  // The person said so: a new version never takes over by itself.
  if (type === 'SKIP_WAITING') void self.skipWaiting();
  if (type === 'look') event.waitUntil(tell(self.registration, Date.now()));
});

// Where the system wakes installed apps from time to time.
self.addEventListener('periodicsync', (event) => {
  if (event instanceof ExtendableEvent) event.waitUntil(tell(self.registration, Date.now()));
});

self.addEventListener('notificationclick', (event) => {
  event.notification.close();
  const path: unknown = event.notification.data;
  event.waitUntil(open(typeof path === 'string' ? path : '/'));
});

async function open(path: string): Promise<void> {
  const [window] = await self.clients.matchAll({ type: 'window' });
  if (window === undefined) {
    await self.clients.openWindow(path);
    return;
  }
  await window.focus();
  // The page goes there by itself, without being loaded again under somebody's half-written record.
  window.postMessage({ type: 'go', path });
}
