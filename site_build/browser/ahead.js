// A hand takes its time: a pointer comes to rest before it presses, a finger lifts after it presses, a key needs its
// choice in focus first. Meanwhile the choice that seems to come is worked out, so that its answer is there with it.
// Nothing is chosen, sent or shown before the reader really picks.

const REST_MS = 30;

export class Ahead {
  #form;
  #ask;
  #timer = 0;
  #asked = null; // the control that may be pressed next, the form's entries after it, and its answer when it is there

  // `ask` is called with the form's entries as they would be after the choice, and says whether it can be done now.
  constructor(form, ask) {
    this.#form = form;
    this.#ask = ask;
    form.addEventListener("pointerover", ({ target }) => this.#soon(target, REST_MS));
    form.addEventListener("pointerdown", ({ target }) => this.#soon(target, 0));
    form.addEventListener("focusin", ({ target }) => this.#soon(target, 0));
  }

  // The pointer may have moved on meanwhile: an answer counts for the entries that it was asked for. `madeReady` gives
  // it as it will be wanted.
  heard(entries, madeReady) {
    if (this.#asked?.entries !== entries) return;
    this.#asked.answer = madeReady(this.#asked.control);
    document.dispatchEvent(new CustomEvent("loadstead:foreseen", { detail: this.#asked.control.id }));
  }

  // The entries and the answer for a press on this control, if it was foreseen. They are good for one pick: what was
  // worked out for the page as it was says nothing about the page after it.
  take(control) {
    const asked = this.#asked;
    this.forget();
    return asked?.answer && asked.control === control ? asked : null;
  }

  forget() {
    this.#asked = null;
  }

  #soon(target, wait_ms) {
    clearTimeout(this.#timer);
    const control = controlAt(target);
    if (!control) return;
    const ask = () => {
      if (control === this.#asked?.control) return;
      const entries = after(this.#form, control);
      // The engine keeps one choice in hand, and so does the page: always the same.
      if (entries) this.#asked = this.#ask(entries) ? { control, entries, answer: null } : null;
    };
    if (wait_ms) this.#timer = setTimeout(ask, wait_ms);
    else ask();
  }
}

// The entries as text; what the form holds beside text, a chosen file, is none of them. A number that the browser
// cannot read is none at all to it, which would pass for an empty field.
export function entriesOf(form) {
  const entries = [...new FormData(form)].filter(([, value]) => typeof value === "string");
  const unreadable = new Set([...form.querySelectorAll("input:invalid")].filter((f) => f.validity.badInput).map((f) => f.name));
  return unreadable.size ? entries.map(([name, value]) => [name, unreadable.has(name) ? "?" : value]) : entries;
}

function controlAt(target) {
  const control = target.closest("label")?.control ?? target.closest("input, button");
  const ours = control?.matches("[type=checkbox], [type=radio], [type=submit][name]");
  return ours && !control.disabled ? control : null;
}

// The entries after a press on this control; null where it would change nothing.
function after(form, control) {
  if (control.form !== form || (control.type === "radio" && control.checked)) return null;
  if (control.type === "submit") return [...entriesOf(form), [control.name, control.value]];
  // Pressed and put back in one go: no event tells of it, nothing is painted.
  const former = control.type === "radio" && form.querySelector(`[name="${CSS.escape(control.name)}"]:checked`);
  const was = control.checked;
  control.checked = !was;
  const entries = entriesOf(form);
  control.checked = was;
  if (former) former.checked = true;
  return entries;
}
