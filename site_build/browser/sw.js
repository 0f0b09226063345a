// Makes the second visit work without network. The lists are written when the site is built.
//
// Each version keeps its files in a cache of its own, filled once while it installs and never changed after, so pages
// and scripts of different versions never mix. A new version waits until the reader agrees or every page is closed.

const VERSION = "@VERSION@";
const KEPT = @KEPT@;
const PREFIX = `loadstead ${new URL(self.registration.scope).pathname} `;
const CACHE = PREFIX + VERSION;
const urlOf = (path) => new URL(path, self.registration.scope).href;
// Files below app/ never change under the same address.
const isFixed = (url) => url.startsWith(urlOf("app/"));

addEventListener("install", (event) => event.waitUntil(keepAll()));

async function keepAll() {
  const cache = await caches.open(CACHE);
  for (const path of KEPT) {
    const url = urlOf(path);
    const earlier = isFixed(url) ? await caches.match(url) : undefined;
    const reply = earlier ?? (await fetch(url, { cache: isFixed(url) ? "default" : "no-cache" }));
    if (!reply.ok) throw new Error(`${url}: HTTP ${reply.status}`);
    await cache.put(url, reply);
  }
}

addEventListener("activate", (event) => event.waitUntil(dropOlder()));

async function dropOlder() {
  // Only caches of this site: others on the same host have their own names.
  for (const name of await caches.keys()) {
    if (name.startsWith(PREFIX) && name !== CACHE) await caches.delete(name);
  }
  await clients.claim();
}

addEventListener("fetch", (event) => {
  const url = event.request.url.split("#")[0];
  if (event.request.method !== "GET" || !url.startsWith(self.registration.scope)) return;
  event.respondWith(isFixed(url) ? keptFirst(event.request) : networkFirst(event.request));
});

async function keptFirst(request) {
  return (await caches.match(request)) ?? fetch(request);
}

async function networkFirst(request) {
  try {
    return await fetch(request);
  } catch (cause) {
    const cache = await caches.open(CACHE);
    const url = request.url.split("#")[0].split("?")[0];
    const kept = (await cache.match(url)) ?? (await cache.match(url.replace(/\/?$/, "/index.html")));
    if (kept) return kept;
    throw cause;
  }
}

addEventListener("message", async (event) => {
  if (event.data?.kind === "activate") await self.skipWaiting();
  if (event.data?.kind === "complete?") {
    const cache = await caches.open(CACHE);
    const kept = new Set((await cache.keys()).map((request) => request.url));
    event.ports[0]?.postMessage({ complete: KEPT.every((path) => kept.has(urlOf(path))) });
  }
});
