// Presses of buttons that the page does not show yet. A press is no state of the form: until its answer stands there,
// every message has to bring it along, or a hand that is faster than the answers loses it.
export class Pressed {
  #owed = new Map();

  // One more and one less add up; of other presses on one thing the last counts.
  press({ name, value }) {
    const sum = Number(value) + Number(this.#owed.get(name) ?? 0);
    this.#put(name, Number.isNaN(sum) ? value : sum);
  }

  // As entries of the form.
  get entries() {
    return [...this.#owed];
  }

  // The page shows what came of these.
  shown(entries) {
    for (const [name, value] of entries) {
      const now = this.#owed.get(name);
      if (now === value) this.#owed.delete(name);
      else if (now !== undefined && !Number.isNaN(now - value)) this.#put(name, now - value);
    }
  }

  forget() {
    this.#owed.clear();
  }

  #put(name, value) {
    if (value === 0) this.#owed.delete(name);
    else this.#owed.set(name, String(value));
  }
}
