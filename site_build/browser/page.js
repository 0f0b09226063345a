// The configurator's page: hands the form to the engine and puts the engine's HTML in place. It knows no rule and no
// number; what a pick means is decided by the engine in the worker.
import { Ahead, entriesOf } from "./ahead.js";
import { EngineWorker } from "./engine_worker.js";
import { Placing } from "./placing.js";
import { StatusLine } from "./status_line.js";
import { keepOffline } from "./offline.js";
import { sending } from "./sending.js";

// The script runs before the page has arrived whole, so that the engine loads meanwhile. A form read too early would
// lack the choices still to come.
const whole = document.readyState === "loading"
  ? new Promise((arrived) => document.addEventListener("DOMContentLoaded", arrived, { once: true }))
  : Promise.resolve();
let form = null;
let line = null;
const storageKey = `loadstead:${new URL(".", location.href).pathname}`;
let ahead = null;
let placing = null;
let turn = 0;
let shownLink = "";
let ready = false;
let settled = 0;

const worker = new EngineWorker((message) => {
  const deal = { ready: onReady, failed: onFailed, result: onResult, fault: onFault };
  if (message.kind === "progress") onProgress(message);
  else whole.then(() => deal[message.kind]?.(message));
});

// On a slow network the page itself takes long to arrive whole; that something is loading is told before.
function onProgress({ step, share }) {
  statusLine()?.progress(step, share);
}

function statusLine() {
  const place = document.getElementById("engine-status");
  if (place) line ??= new StatusLine(place, { restart });
  return line;
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

function onFault({ text, role }) {
  // Of a choice that nobody has made yet nothing is said.
  if (role === "ahead") return;
  line.failed("The calculation failed, not your build. What you picked is kept.", text);
}

function onResult({ body, newest, role, request }) {
  const reply = JSON.parse(body);
  if (role === "ahead") {
    if (reply.fragments) ahead.heard(request.form, (control) => placing.prepare(reply.fragments, control));
    return;
  }
  if (role === "follow") {
    onMore(reply, newest);
    return;
  }
  ahead.forget();
  if (reply.error) {
    line.problem(reply.error.text);
    // The build stays what it was, and so does what was still to come for it.
    if (newest && form.getAttribute("data-later") === "working") goOn({ later: true });
    return;
  }
  placing.takeUp(reply.fragments);
  // An answer to an older pick would undo a newer one on the screen, so its fragments wait for the newest answer.
  if (!newest) return;
  const mine = ++turn;
  const anything = placing.waits;
  placing.showInSight();
  document.dispatchEvent(new CustomEvent("loadstead:seen"));
  // What is out of sight must not hold up the frame that shows the rest.
  if (anything) afterFrame(() => mine === turn && settle(reply));
  else settle(reply);
}

// The page shows all of an answer.
function settle(reply) {
  placing.showAll();
  remember(reply.link);
  form.setAttribute("data-engine", "ready");
  form.setAttribute("data-answers", String(++settled));
  line.answered();
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
  placing.takeUp(reply.fragments ?? {});
  if (!newest) return;
  if (reply.fragments) {
    placing.showAll();
    document.dispatchEvent(new CustomEvent("loadstead:later", { detail: reply }));
  }
  goOn(reply);
}

// A chapter out of sight has no height yet; when Tab reaches into it, it grows, and its entry comes to lie elsewhere.
function bringIntoSight({ target }) {
  let frames = 6;
  const look = () => {
    if (target !== document.activeElement || !target.matches(":focus-visible")) return;
    target.scrollIntoView({ block: "nearest", inline: "nearest", behavior: "instant" });
    if ((frames -= 1)) requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
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

// `control` is what was pressed, if a press it was.
function pick(control) {
  const known = ahead?.take(control);
  if (known) {
    placing.foreshow(known.answer);
    document.dispatchEvent(new CustomEvent("loadstead:seen"));
  }
  const entries = known?.entries ?? entriesOf(form, control?.type === "submit" ? control : undefined);
  worker.ask({ kind: "pick", form: entries }, known ? afterFrame : undefined);
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
    ahead.forget();
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
    if (event.target.form === form) pick(event.target);
  });
  form.addEventListener("click", (event) => {
    const button = event.target.closest("button[data-step]");
    if (button) step(button);
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    pick(event.submitter);
  });
  form.addEventListener("focusin", bringIntoSight);
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
  line = statusLine() ?? new StatusLine(null, { restart });
  if (!form) return;
  listen();
  sending(form);
  placing = new Placing(form);
  ahead = new Ahead(form, (entries) => worker.ahead({ kind: "ahead", form: entries }));
  foldForSmall();
  rememberFolds();
  const link = linkInAddress() ?? (formTouched() ? null : remembered());
  if (link !== null) worker.ask({ kind: "link", fragment: link });
  else if (formTouched()) pick();
  else worker.ask({ kind: "start" });
  document.addEventListener("loadstead:answer", () => keepOffline(line), { once: true });
}

// On a telephone the list of chapters and the charts would stand in the way of what comes after them; one touch
// unfolds them.
function foldForSmall() {
  if (!matchMedia("(max-width: 40em)").matches) return;
  for (const id of ["chapters", "energy"]) document.getElementById(id)?.removeAttribute("open");
}

// The theme unfolds everything for print, which chapters need. Of the rest stands on paper what the reader had unfolded.
function rememberFolds() {
  let printing = false;
  addEventListener("beforeprint", () => (printing = true));
  // That a fold was moved is told only some time later.
  addEventListener("afterprint", () => setTimeout(() => (printing = false), 300));
  const remember = ({ target }) => printing || target.toggleAttribute("data-unfolded", target.open);
  form.addEventListener("toggle", remember, { capture: true });
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
