// What the reader looks at stays where it is, however much is written or struck out above it.

// Chapters out of sight are not laid out; one that comes near the window because of a change takes on its real height
// only in a frame after.
const HOLD_MS = 300;
let held = null;
let watched = null;

export function steadily(change) {
  const active = document.activeElement?.closest("#configurator *");
  const looked = active ?? document.elementFromPoint(innerWidth / 2, innerHeight / 2);
  const before = looked?.getBoundingClientRect().top;
  const id = looked?.closest("[id]")?.id;
  const within = id ? before - document.getElementById(id).getBoundingClientRect().top : 0;
  change();
  held = null;
  // What was replaced is found again by its id.
  const place = looked?.isConnected ? looked : id && document.getElementById(id);
  if (!place || before < 0 || before > innerHeight) return;
  hold(place, place === looked ? before : before - within);
}

function hold(place, top) {
  const moved = place.getBoundingClientRect().top - top;
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
