// The drawings' own part of the page: lights up a part wherever it is drawn or listed, and tells the engine how the
// reader moves a module of the floor plan. Where a module may stand, how far a step goes and what follows from it is
// the engine's business.

let form = null;
let lit = null; // id of the part that is pointed at
let held = null; // id of the module whose tools are shown
let drag = null;

const marked = (id) => form.querySelectorAll(`[data-part="${CSS.escape(id)}"]`);
const module = (id) => form.querySelector(`[data-move][data-part="${CSS.escape(id)}"]`);
const partOf = (node) => node?.closest?.("[data-part]")?.dataset.part ?? node?.closest?.("[data-tool]")?.dataset.tool ?? null;

// ---- a part and its line ----

function light(id) {
  if (id === lit) return;
  if (lit) for (const mark of marked(lit)) mark.classList.remove("lit");
  lit = id;
  relight();
}

function relight() {
  if (lit) for (const mark of marked(lit)) mark.classList.add("lit");
}

// The list scrolls by itself, never the page.
function listLine(id) {
  const line = form.querySelector(`#parts-list tr[data-part="${CSS.escape(id)}"]`);
  const list = line?.closest(".parts-list");
  if (!list) return;
  const head = list.querySelector("thead")?.offsetHeight ?? 0;
  const place = line.getBoundingClientRect(), box = list.getBoundingClientRect();
  if (place.top < box.top + head) list.scrollTop += place.top - box.top - head;
  else if (place.bottom > box.bottom) list.scrollTop += place.bottom - box.bottom;
}

const focused = () => (form.contains(document.activeElement) ? partOf(document.activeElement) : null);

function pointed(event) {
  if (drag) return;
  const id = partOf(event.target) ?? focused();
  light(id);
  if (id && event.target.closest?.("svg")) listLine(id);
}

// ---- a module and its tools ----

function hold(id) {
  held = id;
  for (const tool of form.querySelectorAll("[data-tool]")) tool.hidden = tool.dataset.tool !== id;
  for (const one of form.querySelectorAll("[data-move]")) one.classList.toggle("held", one.dataset.part === id);
  form.querySelector(".tools")?.classList.toggle("holding", Boolean(id && module(id)));
}

function send(name, value) {
  const button = Object.assign(document.createElement("button"), { type: "submit", name, value, hidden: true });
  form.append(button);
  form.requestSubmit(button);
  button.remove();
}

function toolFor(id, key) {
  const tool = form.querySelector(`[data-tool="${CSS.escape(id)}"]`);
  const buttons = [...(tool?.querySelectorAll("[data-keys]") ?? [])];
  return buttons.find((button) => button.dataset.keys.split(" ").includes(key));
}

function onKey(event) {
  if (event.altKey || event.ctrlKey || event.metaKey) return;
  const place = event.target.closest("[data-move], #parts-list tr[data-part]");
  if (place?.matches("[data-move]") && [" ", "Enter"].includes(event.key)) {
    event.preventDefault();
    form.querySelector(`[data-tool="${CSS.escape(place.dataset.part)}"] button`)?.focus();
    return;
  }
  const button = place && toolFor(place.dataset.part, event.key.length === 1 ? event.key.toLowerCase() : event.key);
  if (!button) return;
  event.preventDefault();
  event.stopPropagation(); // S is also the theme's key for its search
  hold(place.dataset.part);
  if (!button.disabled) send(button.name, button.value);
}

// ---- dragging ----

function at(svg, event) {
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  return { x: point.x / 100, y: point.y / 100 }; // a drawing's unit is a centimetre
}

function onDown(event) {
  const piece = event.target.closest("[data-move]");
  if (!piece || event.button !== 0) {
    if (!event.target.closest("[data-tool], #parts-list")) hold(null);
    return;
  }
  const id = piece.dataset.part;
  // With a finger the first touch selects, so that the page can still be scrolled across the drawing.
  const mayDrag = event.pointerType === "mouse" || held === id;
  hold(id);
  light(id);
  listLine(id);
  if (mayDrag) drag = { id, pointer: event.pointerId, svg: piece.ownerSVGElement, from: at(piece.ownerSVGElement, event), far: false };
}

function onMove(event) {
  if (drag?.pointer !== event.pointerId) return;
  const now = at(drag.svg, event);
  const dx = now.x - drag.from.x, dy = now.y - drag.from.y;
  if (!drag.far && Math.hypot(dx, dy) * drag.svg.getScreenCTM().a * 100 < 4) return;
  drag.far = true;
  event.preventDefault();
  for (const mark of drag.svg.querySelectorAll(`[data-part="${CSS.escape(drag.id)}"]`)) {
    if (mark.matches("[data-move], .first")) mark.setAttribute("transform", `translate(${dx * 100} ${dy * 100})`);
  }
}

// Chromium does not heed touch-action on what lies within an SVG: a finger that moves a module would scroll the page.
function onTouchMove(event) {
  if (drag && event.cancelable) event.preventDefault();
}

function onUp(event) {
  if (drag?.pointer !== event.pointerId) return;
  const { id, svg, from, far } = drag;
  drag = null;
  const piece = module(id);
  if (event.type === "pointerup" && far && piece) {
    const [x, middle] = piece.dataset.move.split(" ").map(Number);
    const now = at(svg, event);
    // The vehicle's left is at the bottom of the drawing.
    send(`drop.${id}`, `${(x + now.x - from.x).toFixed(4)} ${(middle - (now.y - from.y)).toFixed(4)}`);
    return; // it stays where it was dropped until the engine has answered
  }
  settle();
}

function settle() {
  for (const mark of form.querySelectorAll("[data-move][transform], .first[transform]")) mark.removeAttribute("transform");
}

// ---- the strip of drawings ----

const cardOf = (link) => document.getElementById(link.hash.slice(1)).closest(".card");

function views() {
  const strip = document.getElementById("strip");
  const links = [...document.querySelectorAll(".views a")];
  if (!strip || !links.length) return;
  // The strip is as high as what it shows, so that a long drawing out of sight leaves no gap.
  const mark = () => {
    const box = strip.getBoundingClientRect();
    for (const link of links) {
      const card = cardOf(link);
      const place = card.getBoundingClientRect();
      const shown = place.left < box.right - place.width / 2 && place.right > box.left + place.width / 2;
      if (shown) link.setAttribute("aria-current", "true");
      else link.removeAttribute("aria-current");
      card.classList.toggle("away", !shown);
    }
  };
  for (const link of links) {
    link.addEventListener("click", (event) => {
      const card = cardOf(link);
      event.preventDefault();
      const behavior = matchMedia("(prefers-reduced-motion: reduce)").matches ? "instant" : "smooth";
      // A drawing out of sight has no height of its own; with it, the page too brings all of it into the window.
      card.classList.remove("away");
      card.scrollIntoView({ block: "nearest", inline: "start", behavior });
    });
  }
  strip.addEventListener("scroll", mark, { passive: true });
  addEventListener("resize", mark);
  mark();
}

// New drawings know nothing of what is pointed at and held.
function renew() {
  if (!drag) settle();
  relight();
  if (held) hold(held);
}

function begin() {
  form = document.getElementById("configurator");
  const drawings = document.getElementById("drawings");
  if (!form || !drawings) return;
  views();
  drawings.addEventListener("pointerover", pointed);
  drawings.addEventListener("pointerleave", () => drag || light(focused()));
  drawings.addEventListener("focusin", (event) => {
    const id = partOf(event.target);
    light(id);
    if (!id) return;
    if (module(id)) hold(id);
    if (event.target.closest("svg")) listLine(id);
  });
  drawings.addEventListener("focusout", (event) => drawings.contains(event.relatedTarget) || light(null));
  drawings.addEventListener("keydown", onKey);
  drawings.addEventListener("pointerdown", onDown);
  drawings.addEventListener("touchmove", onTouchMove, { passive: false });
  drawings.addEventListener("click", (event) => {
    const button = event.target.closest("[data-tool] [data-keys]");
    if (!button) return;
    event.preventDefault();
    send(button.name, button.value);
  });
  addEventListener("pointermove", onMove, { passive: false });
  addEventListener("pointerup", onUp);
  addEventListener("pointercancel", onUp);
  document.addEventListener("loadstead:answer", renew);
  document.addEventListener("loadstead:later", renew);
}

if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", begin, { once: true });
else begin();
