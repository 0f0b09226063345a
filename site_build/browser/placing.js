// Puts the engine's HTML in place: first what the reader sees, and what is out of sight when that is on the screen.
import morphdom from "./morphdom.js";
import { laidOut, lookedAt, steadily } from "./steadily.js";

export class Placing {
  #form;
  #unshown = {}; // fragments of answers that are not on the page yet
  #foreshown = new Map(); // fragments on the page whose answer has not come yet
  #moves = 0; // counts whatever may change what the reader sees: to ask for places would have the page laid out

  constructor(form) {
    this.#form = form;
    for (const kind of ["scroll", "resize"]) addEventListener(kind, () => (this.#moves += 1), { passive: true });
  }

  // Fragments of an answer; they wait to be shown.
  takeUp(fragments) {
    for (const [id, html] of Object.entries(fragments)) {
      if (this.#foreshown.get(id) === html) delete this.#unshown[id];
      else this.#unshown[id] = html;
    }
  }

  get waits() {
    return Object.keys(this.#unshown).length > 0;
  }

  showInSight() {
    const seen = Object.keys(this.#unshown).filter(inSight);
    this.#put(seen.map((id) => [id, this.#unshown[id]]), morph);
    for (const id of seen) delete this.#unshown[id];
  }

  showAll() {
    this.#put(Object.entries(this.#unshown), (old, html) => this.#replace(old, html));
    this.#unshown = {};
    this.#foreshown.clear();
  }

  // Makes fragments ready that may be wanted soon, all at once, by a press on a control: the pieces in sight that would
  // change, and the parts of the page in which nothing else would.
  prepare(fragments, control) {
    const pieces = [];
    const parts = [];
    for (const id of Object.keys(fragments).filter(inSight)) {
      const found = differences(document.getElementById(id), parsed(fragments[id]));
      const seen = found.filter(([now]) => overlapsWindow(now));
      pieces.push(...seen);
      const folds = seen.flatMap(newFolds);
      folds.forEach(standIn);
      if (seen.length === found.length && !folds.length) parts.push(id);
    }
    return { fragments, pieces, parts, looked: lookedAt(control), moves: this.#moves };
  }

  // Shows what the reader sees of an answer that is still to come. The answer itself brings the rest.
  foreshow(prepared) {
    const { fragments } = prepared;
    const current = prepared.moves === this.#moves && prepared.pieces.every(([now]) => now.isConnected);
    const { pieces, parts, looked } = current ? prepared : this.prepare(fragments, prepared.looked.node);
    this.#change(pieces, morph, looked);
    for (const id of parts) {
      this.#foreshown.set(id, fragments[id]);
      delete this.#unshown[id];
    }
  }

  #put(parts, act) {
    this.#change(parts, (id, content) => {
      this.#foreshown.delete(id);
      const old = document.getElementById(id);
      if (old) act(old, content);
    });
  }

  #change(pieces, act, looked) {
    if (!pieces.length) return;
    this.#moves += 1;
    steadily(() => pieces.forEach((piece) => act(...piece)), looked);
  }

  // Out of sight plain replacing looks the same as morphing and takes a fraction of the time. But the sheet's own
  // children are never replaced: a new one would have the whole sheet laid out anew. Nor is what the reader is in, has
  // unfolded, or has read to him as it changes.
  #replace(old, html) {
    const kept =
      old.parentElement === this.#form ||
      old.contains(document.activeElement) ||
      old.matches("[role=status], [role=alert], [aria-live]") ||
      old.querySelector("details[open], [role=status], [role=alert], [aria-live]") !== null;
    if (kept) morph(old, html);
    else old.outerHTML = html;
  }
}

function inSight(id) {
  const part = document.getElementById(id);
  return part !== null && laidOut(part) && overlapsWindow(part);
}

function overlapsWindow(node) {
  const { top, bottom } = (node instanceof Element ? node : node.parentElement).getBoundingClientRect();
  return bottom >= 0 && top <= innerHeight;
}

// The smallest pieces in which two parts differ, each with what comes in its place.
function differences(now, then) {
  if (now.isEqualNode(then)) return [];
  const children = [...now.childNodes];
  const others = [...then.childNodes];
  const alike =
    children.length > 0 &&
    children.length === others.length &&
    now.cloneNode(false).isEqualNode(then.cloneNode(false)) &&
    children.every((child, at) => child.nodeName === others[at].nodeName && child.id === others[at].id);
  return alike ? children.flatMap((child, at) => differences(child, others[at])) : [[now, then]];
}

// The folds that a piece does not have yet.
function newFolds([now, then]) {
  const within = (node) => (node instanceof Element ? [...node.querySelectorAll("details")] : []);
  const place = (fold) => `${fold.closest("[id]")?.id} ${fold.className}`;
  const there = new Set(within(now).map(place));
  return within(then).filter((fold) => !fold.open && !there.has(place(fold)));
}

// A new fold takes the browser longer than all of its note: it reads a style sheet of its own for each. What looks like
// one stands in for it until the answer brings it, a frame later.
function standIn(fold) {
  const place = document.createElement("div");
  place.className = fold.className;
  place.append(fold.querySelector("summary"));
  fold.replaceWith(place);
}

function parsed(html) {
  const template = document.createElement("template");
  template.innerHTML = html;
  return template.content.firstElementChild;
}

// Changes a part piece by piece, which keeps focus and selection in it.
function morph(old, content) {
  morphdom(old, content, {
    onBeforeElUpdated(now, then) {
      // Whether a fold is open, and what is just being typed, is the reader's business.
      if (now.localName === "details") {
        then.open = now.open;
        then.toggleAttribute("data-unfolded", now.hasAttribute("data-unfolded"));
      }
      if (now === document.activeElement && now.matches("input:not([type=checkbox], [type=radio])")) then.value = now.value;
      return true;
    },
  });
}
