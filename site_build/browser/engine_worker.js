// The page's side of the worker: starts it, keeps the newest request while it is busy, starts it anew after a fault.

const ANSWER_PATIENCE_MS = 20000;
const SCRIPT_PATIENCE_MS = 15000;

export class EngineWorker {
  #worker = null;
  #next = 1;
  #busy = null;
  // What was asked and not sent yet: the newest pick, the choice that may come next, the rest of the last answer.
  #waiting = { ask: null, ahead: null, follow: null };
  #timer = 0;
  #ready = false;
  #hear;

  // `hear` is called with every message for the page: progress, ready, failed, result, fault.
  constructor(hear) {
    this.#hear = hear;
  }

  start() {
    this.stop();
    const url = new URL("./worker.js", import.meta.url);
    const early = window.loadsteadEarly;
    delete window.loadsteadEarly;
    try {
      this.#worker = early?.worker ?? new Worker(url, { type: "module" });
    } catch (cause) {
      this.#failed("This browser does not let the page start its calculation.", cause);
      return;
    }
    const mine = this.#worker;
    mine.onmessage = ({ data }) => mine === this.#worker && this.#heard(data);
    // A worker script that cannot be loaded gives an event without a message; the host is asked what it sends.
    mine.onerror = async (event) => {
      event.preventDefault();
      const why = await faultOf([url, new URL("./manifest.js", import.meta.url)]);
      if (mine === this.#worker) this.#failed(why, event.message ?? "");
    };
    this.#arm(SCRIPT_PATIENCE_MS, "The calculation's script did not start.");
    for (const data of early?.heard ?? []) mine.onmessage({ data });
    if (early?.fault) mine.onerror(early.fault);
    this.#send();
  }

  // Whether something was asked that has not been answered.
  get pending() {
    return this.#busy?.role === "ask" || this.#waiting.ask !== null;
  }

  stop() {
    clearTimeout(this.#timer);
    this.#worker?.terminate();
    this.#worker = null;
    this.#busy = null;
    this.#ready = false;
    this.#waiting = { ask: this.#waiting.ask, ahead: null, follow: null };
  }

  // Only the newest request matters: one that has not been sent yet is replaced. `when` says when to send it.
  ask(request, when = (act) => act()) {
    this.#waiting = { ask: request, ahead: null, follow: null };
    when(() => this.#send());
  }

  // Has a choice worked out that may be made next, unless a pick waits for its own answer: what the choice changes is
  // known only then. It goes before the rest of an old answer.
  ahead(request) {
    if (!this.#ready || this.pending) return false;
    this.#waiting.ahead = request;
    this.#send();
    return true;
  }

  // Asks for the rest of the last answer, unless a pick was made: then there is no more use for it.
  follow(request) {
    if (this.pending) return;
    this.#waiting.follow = request;
    this.#send();
  }

  #send() {
    if (!this.#worker || this.#busy) return;
    const role = ["ask", "ahead", "follow"].find((kind) => this.#waiting[kind]);
    if (!role) return;
    const request = this.#waiting[role];
    this.#waiting[role] = null;
    this.#busy = { id: this.#next++, request, role };
    this.#worker.postMessage({ id: this.#busy.id, body: JSON.stringify(request) });
    if (this.#ready) this.#armAnswer();
  }

  #heard(message) {
    clearTimeout(this.#timer);
    if (message.kind === "failed") {
      this.#failed(message.text, message.detail);
      return;
    }
    if (message.kind === "ready") {
      this.#ready = true;
      if (this.#busy) this.#armAnswer();
    }
    if (message.kind === "result" || message.kind === "fault") {
      if (message.id !== this.#busy?.id) return;
      const { role, request } = this.#busy;
      this.#busy = null;
      this.#hear({ ...message, role, request, newest: this.#waiting.ask === null });
      this.#send();
      return;
    }
    this.#hear(message);
  }

  // Start-up watches itself in the worker; here a request that is never answered is noticed.
  #armAnswer() {
    this.#arm(ANSWER_PATIENCE_MS, "The calculation takes too long and was stopped.");
  }

  #arm(patience, text) {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#failed(text, ""), patience);
  }

  #failed(text, detail) {
    // What was asked is not lost: it is sent again when the reader starts the worker anew.
    if (this.#busy?.role === "ask") this.#waiting.ask ??= this.#busy.request;
    this.stop();
    this.#hear({ kind: "failed", text, detail: String(detail) });
  }
}

// Asks the host for scripts that would not start and says in words what is wrong with them.
async function faultOf(urls) {
  for (const url of urls) {
    const name = url.pathname.split("/").pop();
    try {
      const reply = await fetch(url, { cache: "no-store" });
      if (!reply.ok) return `The file ${name} is missing on this site (HTTP ${reply.status}).`;
      const type = reply.headers.get("content-type") ?? "no type";
      if (!/javascript|ecmascript/.test(type)) {
        return `This site sends ${name} as ${type}; scripts must be sent as text/javascript.`;
      }
    } catch {
      return `The file ${name} could not be loaded. The network may be down, or a policy of this site forbids it.`;
    }
  }
  return "The calculation's script could not be started. A policy of this site may forbid it, or the browser may be too old.";
}
