/**
 * One run as this phone knows it: the sheet, the journal, and the state folded from both.
 *
 * The state is folded when somebody looks, and again only after this run's journal changed.
 */

import { fold } from "../bench/index.js";

/** The order every replica folds in: time, then device, then id. */
export function inOrder(a, b) {
  return a.at - b.at || compare(a.device, b.device) || compare(a.id, b.id);
}

function compare(a, b) {
  return a < b ? -1 : a > b ? 1 : 0;
}

export class Run {
  #entries = new Map();
  #outbox = new Map();
  #sorted = null;
  #state = null;
  #stamped = 0;

  /** @param {{id, recipe, size, sheet, created_at}} row as it lies on the phone's disk */
  constructor(row) {
    this.take(row);
  }

  take({ id, recipe, size, sheet, created_at }) {
    Object.assign(this, { id, recipe, size, sheet, created_at });
    this.#state = null;
  }

  /** The journal, in order, without what the maker has set aside. */
  get entries() {
    this.#sorted ??= [...this.#entries.values()]
      .filter((entry) => !this.#outbox.get(entry.id)?.aside)
      .sort(inOrder);
    return this.#sorted;
  }

  get state() {
    this.#state ??= fold(this.sheet, this.entries);
    return this.#state;
  }

  get open() {
    return this.state.finished_at === null;
  }

  /** How many things of this run the server has not kept, refused ones not counted. */
  get unsent() {
    let count = 0;
    for (const row of this.#outbox.values()) if (isWaiting(row)) count += 1;
    return count;
  }

  /** The server said no to the run itself, so it will not take its entries either. */
  get isRefused() {
    return Boolean(this.#outbox.get(this.id)?.refused);
  }

  /** What the server refused and why; entry is null when it refused the run itself. */
  get refused() {
    return [...this.#outbox.values()]
      .filter((row) => row.refused && !row.aside)
      .map((row) => ({
        run: this.id,
        entry: this.#entries.get(row.id) ?? null,
        detail: row.refused,
      }));
  }

  entry(id) {
    return this.#entries.get(id);
  }

  /**
   * The instant for a new entry: later than any entry of the run this phone has seen, so that
   * what the maker does in answer to an entry always sorts after it. Of the run, not of all runs:
   * one entry from a phone whose clock runs a day ahead must not carry every other run with it.
   */
  stamp(now) {
    this.#stamped = Math.max(now, this.#stamped + 1, (this.entries.at(-1)?.at ?? 0) + 1);
    return this.#stamped;
  }

  put(entry) {
    const last = this.#sorted?.at(-1);
    const isNext = !this.#entries.has(entry.id) && (!last || inOrder(last, entry) < 0);
    this.#entries.set(entry.id, entry);
    // Nearly always the newest entry: no need to sort thousands again. A new array, because
    // a screen may still hold the old one.
    if (isNext && this.#sorted) {
      this.#sorted = [...this.#sorted, entry];
      this.#state = null;
    } else this.#forget();
  }

  /** @param {object|null} row null: the server has it now */
  mark(id, row) {
    const aside = Boolean(this.#outbox.get(id)?.aside);
    if (row) this.#outbox.set(id, row);
    else this.#outbox.delete(id);
    if (aside !== Boolean(row?.aside)) this.#forget();
  }

  #forget() {
    this.#sorted = null;
    this.#state = null;
    this.#stamped = 0; // an instant may have been put right since
  }

  /** Outbox rows still to be sent, the run itself before its entries. */
  waiting() {
    return [...this.#outbox.values()].filter(isWaiting);
  }

  /** Outbox rows of what was entered while the clock was a guess; nobody else has them. */
  guessed() {
    return [...this.#outbox.values()].filter((row) => row.guessed);
  }
}

function isWaiting(row) {
  return !row.refused && !row.aside;
}
