// What the reader looks at stays where it is, however much is written or struck out above it.

// Chapters out of sight are not laid out; one that comes near the window because of a change takes on its real height
// only in a frame after.
const HOLD_MS = 300;
let held = null;
let watched = null;

export function steadily(change, looked = lookedAt()) {
  change();
  held = null;
  const { node, top, id, within } = looked;
  // What was replaced is found again by its id.
  const place = node?.isConnected ? node : id && document.getElementById(id);
  if (!place || !inWindow(top)) return;
  hold(place, place === node ? top : top - within);
}

// Where something is that is looked at: what the reader is in, and what is in the middle of the window once that was
// scrolled out of it. Who is in nothing at the top of the page sees what changes there, and the rest may give way.
export function lookedAt(node = focused() ?? (scrollY > 0 ? inTheMiddle() : null)) {
  const top = topOf(node);
  const id = node?.closest("[id]")?.id;
  return { node, top, id, within: id ? top - topOf(document.getElementById(id)) : 0 };
}

function focused() {
  const node = document.activeElement?.closest("#configurator *");
  return node && laidOut(node) && inWindow(topOf(node)) ? node : null;
}

// To ask a chapter out of sight for the place of something in it would have the browser lay it out.
export function laidOut(node) {
  return node.checkVisibility?.({ contentVisibilityAuto: true }) !== false;
}

// Between rows lies a chapter, which may begin far above the window and stay there while what it holds moves.
function inTheMiddle() {
  let place = null;
  for (const share of [0.5, 0.52, 0.55, 0.6, 0.7]) {
    place = document.elementFromPoint(innerWidth / 2, innerHeight * share);
    if (inWindow(topOf(place))) break;
  }
  return place;
}

// Who comes to a field with the keyboard may come near chapters that then take on their real height: once the browser has
// scrolled to the field, it stays.
addEventListener("focusin", (event) => {
  const node = event.target.closest?.("#configurator *");
  if (!node) return;
  requestAnimationFrame(() => {
    const top = topOf(node);
    if (node === document.activeElement && inWindow(top)) hold(node, top);
  });
});

const topOf = (node) => node?.getBoundingClientRect().top;
const inWindow = (top) => top >= 0 && top <= innerHeight;

function hold(place, top) {
  const moved = topOf(place) - top;
  if (moved) scrollBy({ top: moved, behavior: "instant" });
  held = { place, top, at: scrollY, until: performance.now() + HOLD_MS };
  watched ??= watchChapters();
}

function watchChapters() {
  const watch = new ResizeObserver(() => {
    // Who scrolls meanwhile looks at something else.
    const still = held?.place.isConnected && scrollY === held.at && performance.now() < held.until;
    if (still) hold(held.place, held.top);
    else held = null;
  });
  document.querySelectorAll("#configurator > .chapter").forEach((chapter) => watch.observe(chapter));
  return watch;
}
