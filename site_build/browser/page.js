// The configurator's page: hands the form to the engine and puts the engine's HTML in place. It knows no rule and no
// number; what a pick means is decided by the engine in the worker.
import { Idiomorph } from "./idiomorph.js";
import { EngineWorker } from "./engine_worker.js";
import { StatusLine } from "./status_line.js";
import { keepOffline } from "./offline.js";

// The script runs before the page has arrived whole, so that the engine loads meanwhile. A form read too early would
// lack the choices still to come.
const whole = document.readyState === "loading"
  ? new Promise((arrived) => document.addEventListener("DOMContentLoaded", arrived, { once: true }))
  : Promise.resolve();
let form = null;
let line = null;
const storageKey = `loadstead:${new URL(".", location.href).pathname}`;
let unshown = {};
let shownLink = "";
let ready = false;
let settled = 0;

const worker = new EngineWorker((message) => {
  const deal = { progress: onProgress, ready: onReady, failed: onFailed, result: onResult, fault: onFault };
  whole.then(() => deal[message.kind]?.(message));
});

function onProgress({ step, share }) {
  line.progress(step, share);
}

function onReady() {
  ready = true;
  line.ready();
  performance.mark("loadstead-ready");
}

function onFailed({ text, detail }) {
  ready = false;
  line.failed(text, detail);
  form?.setAttribute("data-engine", "failed");
}

function onFault({ text }) {
  line.failed("The calculation failed, not your build. What you picked is kept.", text);
}

function onResult({ body, newest, follows, took_ms }) {
  const reply = JSON.parse(body);
  if (follows) {
    onMore(reply, newest);
    return;
  }
  if (reply.error) {
    line.problem(reply.error.text);
    // The build stays what it was, and so does what was still to come for it.
    if (newest && form.getAttribute("data-later") === "working") goOn({ later: true });
    return;
  }
  Object.assign(unshown, reply.fragments);
  // An answer to an older pick would undo a newer one on the screen, so its fragments wait for the newest answer.
  if (!newest) return;
  steadily(() => show(unshown));
  unshown = {};
  remember(reply.link);
  form.setAttribute("data-engine", "ready");
  form.setAttribute("data-answers", String(++settled));
  line.answered(took_ms);
  document.dispatchEvent(new CustomEvent("loadstead:answer", { detail: reply }));
  // The rest would come before the frame that shows this answer, and hold it up.
  goOn(reply, afterFrame);
}

// A page out of sight paints no frames.
function afterFrame(act) {
  let acted = false;
  const once = () => acted || ((acted = true), act());
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, 100);
}

// Some figures take long. Their part of an answer comes slice by slice, each asked for by itself, so that a pick never
// waits for more than a slice.
function goOn({ later }, when = (act) => act()) {
  form.setAttribute("data-later", later ? "working" : "done");
  if (later) when(() => worker.follow({ kind: "later" }));
}

function onMore(reply, newest) {
  Object.assign(unshown, reply.fragments);
  if (!newest) return;
  if (reply.fragments) {
    steadily(() => show(unshown));
    unshown = {};
    document.dispatchEvent(new CustomEvent("loadstead:later", { detail: reply }));
  }
  goOn(reply);
}

// What the reader looks at stays where it is, however much is written or struck out above it.
function steadily(change) {
  const active = document.activeElement;
  const looked = form.contains(active) ? active : document.elementFromPoint(innerWidth / 2, innerHeight / 2);
  const before = looked?.getBoundingClientRect().top;
  const id = looked?.closest("[id]")?.id;
  const within = id ? before - document.getElementById(id).getBoundingClientRect().top : 0;
  change();
  // What was replaced is found again by its id.
  const place = looked?.isConnected ? looked : id && document.getElementById(id);
  if (!place || before < 0 || before > innerHeight) return;
  const moved = place.getBoundingClientRect().top + (place === looked ? 0 : within) - before;
  if (moved) scrollBy({ top: moved, behavior: "instant" });
}

// A chapter out of sight has no height yet; when Tab reaches into it, it grows, and its entry comes to lie elsewhere.
function inSight({ target }) {
  let frames = 6;
  const look = () => {
    if (target !== document.activeElement || !target.matches(":focus-visible")) return;
    target.scrollIntoView({ block: "nearest", inline: "nearest", behavior: "instant" });
    if ((frames -= 1)) requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

function show(fragments) {
  for (const [id, html] of Object.entries(fragments)) {
    const old = document.getElementById(id);
    if (!old) continue;
    if (touched(old)) morph(old, html);
    else old.outerHTML = html;
  }
}

// Parts that the reader is in, has unfolded, or has read to them as they change are morphed, which keeps all that.
// So are the sheet's own children, because a new one would have the whole sheet laid out anew. For the rest plain
// replacing looks the same and takes a fraction of the time.
function touched(part) {
  return (
    part.parentElement === form ||
    part.contains(document.activeElement) ||
    part.matches("[role=status], [role=alert], [aria-live]") ||
    part.querySelector("details[open], [role=status], [role=alert], [aria-live]") !== null
  );
}

function morph(old, html) {
  Idiomorph.morph(old, html, {
    morphStyle: "outerHTML",
    restoreFocus: true,
    ignoreActiveValue: true,
    callbacks: {
      // Whether a fold is open is the reader's business.
      beforeAttributeUpdated: (name, node) => !(name === "open" && node.localName === "details"),
    },
  });
}

// The build is in the address, so a reload, a bookmark or a copied address brings it back. Nothing is sent anywhere:
// the part behind # stays in the browser.
function remember(link) {
  if (!link || link === shownLink) return;
  shownLink = link;
  try {
    history.replaceState(history.state, "", `#${link}`);
    localStorage.setItem(storageKey, link);
  } catch {
    // Private windows may refuse storage and very fast picks may be throttled; the page works without both.
  }
}

function remembered() {
  try {
    return localStorage.getItem(storageKey);
  } catch {
    return null;
  }
}

function pick(submitter) {
  const fields = submitter ? new FormData(form, submitter) : new FormData(form);
  const entries = [...fields].filter(([, value]) => typeof value === "string");
  worker.ask({ kind: "pick", form: entries });
  if (!ready) line.kept();
}

// A hash that names no part of the page is a build.
function linkInAddress() {
  const hash = location.hash.slice(1);
  return hash && !document.getElementById(hash) ? hash : null;
}

function restart() {
  line.progress("load", 0);
  if (form && !worker.pending) pick();
  worker.start();
}

// The small buttons beside a number change it by the field's own step and limits.
function step(button) {
  const field = document.getElementById(button.dataset.for);
  if (!field) return;
  if (Number(button.dataset.step) > 0) field.stepUp();
  else field.stepDown();
  field.dispatchEvent(new Event("change", { bubbles: true }));
}

// A kept file goes to the engine as it is, which says what is wrong with it. Of a huge one only as much is read as
// shows that it is too large.
async function open(field) {
  const [file] = field.files;
  field.value = "";
  if (!file) return;
  try {
    const text = await file.slice(0, Number(field.dataset.most) + 1).text();
    worker.ask({ kind: "file", text });
    if (!ready) line.kept();
  } catch {
    line.problem(`The file ${file.name} could not be read.`);
  }
}

function listen() {
  let typing = 0;
  const afterTyping = () => {
    clearTimeout(typing);
    typing = setTimeout(pick, 150);
  };
  form.addEventListener("input", (event) => {
    if (event.target.matches("input[type=text], input[type=number], input[type=range], textarea")) afterTyping();
  });
  form.addEventListener("change", (event) => {
    if (event.target.id === "open-file") {
      open(event.target);
      return;
    }
    clearTimeout(typing);
    // Typed fields report each change twice; the timer above already waits for the last letter.
    if (event.target.form === form) pick();
  });
  form.addEventListener("click", (event) => {
    const button = event.target.closest("button[data-step]");
    if (button) step(button);
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    pick(event.submitter ?? undefined);
  });
  form.addEventListener("focusin", inSight);
  form.addEventListener("reset", (event) => {
    event.preventDefault();
    worker.ask({ kind: "reset" });
  });
  document.addEventListener("click", (event) => {
    const link = event.target.closest('a[href^="#"]');
    if (link && !event.defaultPrevented) setTimeout(() => arrive(decodeURIComponent(link.hash.slice(1))));
  });
  addEventListener("hashchange", () => {
    const link = linkInAddress();
    if (link !== null && link !== shownLink) worker.ask({ kind: "link", fragment: link });
  });
}

// Chapters that were never in sight have an estimated height, so a jump past them misses. It is repeated until the
// place stays where it is.
function arrive(id, frames = 12) {
  const place = id && document.getElementById(id);
  if (!place || !frames) return;
  // What comes into sight is laid out only in the frame after.
  requestAnimationFrame(() => {
    place.scrollIntoView({ block: "start", behavior: "instant" });
    arrive(id, frames - 1);
  });
}

function begin() {
  form = document.getElementById("configurator");
  line = new StatusLine(document.getElementById("engine-status"), { restart });
  if (!form) return;
  listen();
  foldForSmall();
  const link = linkInAddress() ?? (formTouched() ? null : remembered());
  if (link !== null) worker.ask({ kind: "link", fragment: link });
  else if (formTouched()) pick();
  else worker.ask({ kind: "start" });
  document.addEventListener("loadstead:answer", () => keepOffline(line), { once: true });
}

// On a telephone the charts would stand in the way of the chapters after them; one touch unfolds them.
function foldForSmall() {
  if (matchMedia("(max-width: 40em)").matches) document.getElementById("energy")?.removeAttribute("open");
}

// Picks made before this script ran, or kept by the browser over a reload, count.
function formTouched() {
  return [...form.elements].some(
    (field) =>
      (field.type === "checkbox" || field.type === "radio" ? field.checked !== field.defaultChecked : false) ||
      (field.localName === "select" && [...field.options].some((o) => o.selected !== o.defaultSelected)) ||
      (field.localName === "input" && !["checkbox", "radio"].includes(field.type) && field.value !== field.defaultValue),
  );
}

window.loadsteadPage = true;
// First of all that waits for the whole page: the worker may have spoken already.
whole.then(begin);
worker.start();
