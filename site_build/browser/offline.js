// Registers the service worker once the page computes, so that keeping files for later never slows the first visit.

export async function keepOffline(line) {
  const place = document.documentElement.querySelector("meta[name=loadstead-root]")?.content;
  if (!("serviceWorker" in navigator) || place === undefined) return;
  const root = new URL(place, location.href);
  try {
    const registration = await navigator.serviceWorker.register(new URL("sw.js", root), { scope: root.pathname });
    offerNewVersion(registration, line);
    await navigator.serviceWorker.ready;
    if (await everythingKept(registration)) line.offline();
    // Without this the browser may drop kept files after days without a visit; refusing is its right.
    await navigator.storage?.persist?.();
  } catch {
    // Private windows and plain-http addresses have no service worker. The page works, it only needs the network.
  }
}

function offerNewVersion(registration, line) {
  const offer = (waiting) =>
    line.offer("A new version of this page is here.", "New version: reload", () => {
      navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
      waiting.postMessage({ kind: "activate" });
    });
  if (registration.waiting && navigator.serviceWorker.controller) offer(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const incoming = registration.installing;
    incoming?.addEventListener("statechange", () => {
      if (incoming.state === "installed" && navigator.serviceWorker.controller) offer(incoming);
    });
  });
}

// Said only after the worker has looked into its cache.
function everythingKept(registration) {
  const channel = new MessageChannel();
  return new Promise((resolve) => {
    channel.port1.onmessage = ({ data }) => resolve(data.complete === true);
    (registration.active ?? registration.waiting)?.postMessage({ kind: "complete?" }, [channel.port2]);
    setTimeout(() => resolve(false), 5000);
  });
}
