// The line that says how the calculation stands: starting, ready, failed, offline, or a new version waiting.
import { steadily } from "./steadily.js";

const STEPS = {
  load: "Loading the calculation",
  python: "Starting the calculation",
  shop: "Opening the catalogue",
};

export class StatusLine {
  #root;
  #text;
  #bar;
  #detail;
  #restart;
  #kept = false;

  constructor(root, { restart }) {
    this.#root = root ?? document.createElement("div");
    this.#text = this.#part("p", "engine-status-text");
    this.#bar = this.#part("progress", "engine-status-bar");
    this.#bar.max = 1;
    this.#bar.setAttribute("aria-label", "Loading");
    this.#bar.hidden = true;
    this.#detail = this.#part("details", "engine-status-detail");
    this.#detail.hidden = true;
    this.#restart = this.#part("button", "engine-status-restart");
    this.#restart.type = "button";
    this.#restart.textContent = "Start the calculation again";
    this.#restart.hidden = true;
    this.#restart.addEventListener("click", restart);
  }

  progress(step, share) {
    this.#state("starting", `${STEPS[step]} …${this.#kept ? " Your picks are kept and applied as soon as it runs." : ""}`);
    this.#bar.hidden = false;
    if (step === "load" && share !== undefined) this.#bar.value = share;
    else this.#bar.removeAttribute("value");
  }

  // A pick came before the calculation was ready.
  kept() {
    this.#kept = true;
  }

  ready() {
    this.#kept = false;
    this.#state("ready", "The calculation runs in this browser; nothing is sent anywhere.");
  }

  answered() {
    if (this.#root.dataset.state !== "ready") this.ready();
  }

  // Something asked for cannot be done; the page goes on as it was.
  problem(text) {
    this.#state("problem", text);
  }

  failed(text, detail) {
    this.#state("failed", `${text} The sheet below stays readable; it shows the build it had last.`);
    this.#restart.hidden = false;
    if (detail) {
      const words = document.createElement("pre");
      words.textContent = detail;
      const title = document.createElement("summary");
      title.textContent = "Details for the workshop";
      this.#detail.replaceChildren(title, words);
      this.#detail.hidden = false;
    }
  }

  // A button with a sentence, for a new version that waits.
  offer(text, label, act) {
    const box = this.#part("div", "engine-status-offer");
    const words = document.createElement("span");
    words.textContent = text;
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = label;
    button.addEventListener("click", act);
    unmoved(() => box.replaceChildren(words, button));
  }

  offline() {
    unmoved(() => (this.#part("span", "engine-status-offline").textContent = "Ready for use without network."));
  }

  #state(state, text) {
    this.#root.dataset.state = state;
    if (this.#text.textContent === text) {
      this.#fold();
      return;
    }
    unmoved(() => {
      this.#text.textContent = text;
      this.#fold();
    });
  }

  // What only some states show.
  #fold() {
    this.#bar.hidden = true;
    this.#restart.hidden = true;
    this.#detail.hidden = true;
  }

  #part(tag, name) {
    const found = this.#root.querySelector(`.${name}`);
    if (found) return found;
    const made = document.createElement(tag);
    made.className = name;
    return this.#root.appendChild(made);
  }
}

// At the top of the page the line itself is in sight, and what is below it may give way.
function unmoved(change) {
  if (scrollY > 0) steadily(change);
  else change();
}
