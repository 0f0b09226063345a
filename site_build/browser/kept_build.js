// Where the page keeps the build: in the address, so that a reload, a bookmark or a copied address brings it back, and
// the reader's own also in the browser, for the next visit. Nothing is sent anywhere: the part behind # stays here.
const storageKey = `loadstead:${new URL(".", location.href).pathname}`;
let shown = ""; // link of the build on the page
let kept = "";
// Entries of the history with the same mark are places on the page with one build: to go to and fro between them opens
// none of its earlier states.
let mark = history.state?.build ?? fresh();

function fresh() {
  return `${Date.now()}-${Math.random()}`;
}

// `own` says whether the reader made it so; what was only opened does not take the place of what he has kept.
export function remember(link, own) {
  if (!link) return;
  shown = link;
  try {
    if (location.hash !== `#${link}` || history.state?.build !== mark) {
      history.replaceState({ ...history.state, build: mark }, "", `#${link}`);
    }
    if (own && link !== kept) localStorage.setItem(storageKey, (kept = link));
  } catch {
    // Private windows may refuse storage and very fast picks may be throttled; the page works without both.
  }
}

export function remembered() {
  try {
    return localStorage.getItem(storageKey);
  } catch {
    return null;
  }
}

// A hash that names a part of the page, or looks like the name of one, is no build.
export function linkInAddress() {
  const hash = location.hash.slice(1);
  return hash && !document.getElementById(hash) && !/^[a-z][a-z0-9-]{0,60}$/.test(hash) ? hash : null;
}

// The reader went elsewhere on the page or in the history. Another build that is asked for by this, or null.
export function linkArrivedAt() {
  const link = linkInAddress();
  if (link === null || link === shown || history.state?.build === mark) {
    remember(shown, false);
    return null;
  }
  mark = history.state?.build ?? fresh();
  return link;
}

// What comes is another build: the browser's own way back leads to the one before it.
export function beginAnother() {
  mark = fresh();
  shown = "";
  try {
    history.pushState({ build: mark }, "", location.pathname + location.search);
  } catch {
    // As above.
  }
}
