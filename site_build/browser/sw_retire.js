// Kill switch. Put on the host as sw.js, it takes the place of the service worker there, drops what that one kept for
// this site (and nothing of its neighbours on the same host) and removes itself.

const PREFIX = `loadstead ${new URL(self.registration.scope).pathname} `;

addEventListener("install", (event) => event.waitUntil(self.skipWaiting()));

addEventListener("activate", (event) =>
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys()) if (name.startsWith(PREFIX)) await caches.delete(name);
      await self.registration.unregister();
    })(),
  ),
);
