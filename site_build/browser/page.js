// The configurator's page: hands the form to the engine and puts the engine's HTML in place. It knows no rule and no
// number; what a pick means is decided by the engine in the worker.
import { Ahead, entriesOf } from "./ahead.js";
import { EngineWorker } from "./engine_worker.js";
import { beginAnother, linkArrivedAt, linkInAddress, remember, remembered } from "./kept_build.js";
import { Placing } from "./placing.js";
import { Pressed } from "./pressed.js";
import { markRefused, showRefused } from "./refused.js";
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
let ahead = null;
let placing = null;
let ready = false;
let settled = 0;
let settling = null; // the last answer that nothing was wrong with, until the page shows all of it
let opening = []; // what to open the page with, if what it was asked for cannot be read
const pressed = new Pressed();
const carried = new WeakMap(); // which presses a request brought along

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
    if (newest) onRefused(reply, request);
    return;
  }
  placing.takeUp(reply.fragments);
  // An answer to an older pick would undo a newer one on the screen, so its fragments wait for the newest answer.
  const mine = (settling = { reply, request });
  if (!newest) return;
  const anything = placing.waits;
  placing.showInSight();
  document.dispatchEvent(new CustomEvent("loadstead:seen"));
  // What is out of sight must not hold up the frame that shows the rest. But where only half of what was pressed stands
  // on the page, the next pick would count the other half once more.
  if (anything && !carried.get(request)?.length) afterFrame(() => mine === settling && settle());
  else settle();
}

// What was asked for cannot be read. The build stays what it was, and so does what was still to come for it.
function onRefused(reply, request) {
  settle();
  pressed.forget();
  if (request.kind === "pick") {
    placing.takeUp(reply.fragments);
    placing.showAll();
    markRefused(form, reply.error.where);
  } else {
    line.problem(reply.error.text);
  }
  if (!settled && opening.length) {
    const { text } = reply.error;
    document.addEventListener("loadstead:answer", () => line.problem(text), { once: true });
    worker.ask(opening.shift());
  } else if (form.getAttribute("data-later") === "working") goOn({ later: true });
}

// The page shows all of an answer.
function settle() {
  if (!settling) return;
  const { reply, request } = settling;
  settling = null;
  placing.showAll();
  pressed.shown(carried.get(request) ?? []);
  remember(reply.link, request.kind === "pick");
  markRefused(form, null);
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

// `control` is what was pressed, if a press it was.
function pick(control) {
  const button = control?.type === "submit" && control.name ? control : null;
  const known = ahead?.take(control);
  const held = known ? foreshow(known, button) : false;
  if (button && !held) pressed.press(button);
  ask(known?.entries ?? [...entriesOf(form), ...pressed.entries], known ? afterFrame : undefined);
  if (!ready) line.kept();
}

function ask(entries, when) {
  const request = { kind: "pick", form: entries };
  carried.set(request, pressed.entries);
  worker.ask(request, when);
}

// Shows an answer that was worked out ahead, and says whether the form itself holds the press by that.
function foreshow(known, button) {
  const held = button && JSON.stringify(entriesOf(form));
  placing.foreshow(known.answer);
  document.dispatchEvent(new CustomEvent("loadstead:seen"));
  return Boolean(button) && JSON.stringify(entriesOf(form)) !== held;
}

// Another build takes the place of this one and of what was pressed for it.
function askFor(request) {
  pressed.forget();
  worker.ask(request);
}

function restart() {
  line.progress("load", 0);
  if (form && !worker.pending) pick();
  worker.start();
}

// A kept file goes to the engine as it is, which says what is wrong with it. Of a huge one only as much is read as
// shows that it is too large.
async function open(field) {
  const [file] = field.files;
  field.value = "";
  if (!file) return;
  try {
    const text = await file.slice(0, Number(field.dataset.most) + 1).text();
    askFor({ kind: "file", text });
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
  // Enter in a field with a button of its own presses that one, which then has the focus: what is typed is done with.
  form.addEventListener("keydown", (event) => {
    const button = event.key === "Enter" && !event.isComposing && document.getElementById(event.target.dataset.enter);
    if (!button) return;
    event.preventDefault();
    button.focus();
    button.click();
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    pick(event.submitter);
  });
  form.addEventListener("click", ({ target }) => target.closest("button[data-show-field]") && showRefused(form, target));
  form.addEventListener("focusin", bringIntoSight);
  form.addEventListener("reset", (event) => {
    event.preventDefault();
    beginAnother();
    askFor({ kind: "reset" });
  });
  document.addEventListener("click", (event) => {
    const link = event.target.closest('a[href^="#"]');
    if (link && !event.defaultPrevented) setTimeout(() => arrive(decodeURIComponent(link.hash.slice(1))));
  });
  addEventListener("hashchange", () => {
    const link = linkArrivedAt();
    if (link !== null) askFor({ kind: "link", fragment: link });
  });
}

// Chapters that were never in sight have an estimated height, so a jump past them misses. It is repeated until the
// place stays where it is.
function arrive(id, frames = 12) {
  const place = id && document.getElementById(id);
  if (!place || !frames) return;
  if (place.localName === "details") place.open = true;
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
  ahead = new Ahead(form, (entries) => !pressed.entries.length && worker.ahead({ kind: "ahead", form: entries }));
  foldForSmall();
  rememberFolds();
  openPage();
  document.addEventListener("loadstead:answer", () => keepOffline(line), { once: true });
}

// With what the address says, else with what was picked before this script ran, else with what was kept.
function openPage() {
  const link = linkInAddress();
  const early = window.loadsteadPressed ?? [];
  window.loadsteadPressed = null;
  if (link === null && (formTouched() || early.length)) {
    for (const button of early) if (button?.name) pressed.press(button);
    pick();
    return;
  }
  const links = [...new Set([link, remembered()])].filter((known) => known !== null);
  opening = [...links.map((fragment) => ({ kind: "link", fragment })), { kind: "start" }];
  worker.ask(opening.shift());
  if (link === null) arrive(location.hash.slice(1));
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
