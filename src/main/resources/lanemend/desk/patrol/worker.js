// Keeps this page's files in the browser, so that it opens without a network. It asks no other host.
const CACHE = 'lanemend-patrol-{{version}}';
const FILES = [
  {{files}},
];

self.addEventListener('install', (event) => {
  event.waitUntil((async () => {
    const cache = await caches.open(CACHE);
    // All or none, past the browser's own cache, so that the files belong together.
    await cache.addAll(FILES.map((f) => new Request(f, { cache: 'reload', redirect: 'error' })));
    await self.skipWaiting();
  })());
});

self.addEventListener('activate', (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith('lanemend-patrol-') && name !== CACHE) {
        await caches.delete(name);
      }
    }
    await self.clients.claim();
  })());
});

self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  if (event.request.method === 'GET' && url.origin === self.location.origin && FILES.includes(url.pathname)) {
    event.respondWith((async () => (await (await caches.open(CACHE)).match(url.pathname)) || fetch(event.request))());
  }
});
