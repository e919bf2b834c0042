/**
 * The book: what is on this phone's disk, mirrored in memory, the same in every tab.
 *
 * One way in: `commit(changes)` writes to the disk, and only when it is there does the change
 * reach memory and the phone's other tabs. So what a screen shows is always kept.
 *
 * Opened early, it begins with the runs that are open, and reads the finished ones when asked (`readRest`).
 * Which those are, and what a list of them shows, it notes as meta "closed".
 */

import { Journal, Run, SHELF } from "./run.js";

/** How the store of recipe versions names one. */
export function versionKey(recipe, version) {
  return `${recipe}/${version}`;
}

const STORES = ["recipes", "drafts", "kit", "runs", "entries", "outbox", "preferences", "meta"];

/** So many finished runs are read in one piece, so that none holds a touch up. */
const PIECE = 5;

export class Book extends EventTarget {
  #store;
  #channel;
  #later = []; // the runs that are not read yet
  #meanwhile = []; // what changed while they were not
  #reading = null;

  recipes = new Map();
  drafts = new Map();
  /** {version, document, measured}, or null until the server was first heard. */
  kit = null;
  runs = new Map();
  /** What is in the house: a journal of its own. */
  shelf = new Journal(SHELF);
  /** "recipe/version" of each recipe version on the disk; only a lost server needs what they say. */
  versions = new Set();
  preferences = new Map();
  meta = new Map();

  /** @param store see store.js @param {{early?: boolean}} [how] @returns {Promise<Book>} */
  static async open(store, { early = false } = {}) {
    const book = new Book();
    book.#store = store;
    book.#listen();
    const rows = early ? await book.#readEarly() : await store.read(...STORES);
    book.versions = new Set(await store.keys("versions"));
    book.#take(Object.fromEntries(STORES.map((name) => [name, { put: rows[name] }])));
    return book;
  }

  /** All but the runs that are known to be finished, and of which nothing is to be sent. */
  async #readEarly() {
    const rows = await this.#store.read(...STORES.filter((name) => name !== "runs" && name !== "entries"));
    const closed = rows.meta.find(({ key }) => key === "closed")?.value ?? {};
    const due = new Set(rows.outbox.map(({ run }) => run));
    const ids = await this.#store.keys("runs");
    this.#later = ids.filter((id) => Object.hasOwn(closed, id) && !due.has(id));
    const later = new Set(this.#later);
    return { ...rows, ...(await this.#store.runs([...ids.filter((id) => !later.has(id)), SHELF])) };
  }

  /** Every run is here. */
  get isWhole() {
    return this.#later.length === 0 && this.#reading === null;
  }

  /** Read the finished runs too, piece by piece. @returns {Promise<void>} once all are here */
  readRest() {
    if (this.#later.length > 0) this.#reading ??= this.#readPieces();
    return this.#reading ?? Promise.resolve();
  }

  async #readPieces() {
    const closed = this.meta.get("closed");
    while (this.#later.length > 0) {
      const { runs, entries } = await this.#store.runs(this.#later.splice(0, PIECE));
      this.#take({ runs: { put: runs }, entries: { put: entries } });
      for (const { id } of runs) this.runs.get(id).closed = closed[id] ?? null;
      await new Promise((resolve) => setTimeout(resolve));
    }
    for (const changes of this.#meanwhile.splice(0)) this.#take(changes); // of what came for a run before it was read
    this.#reading = null;
    this.dispatchEvent(new CustomEvent("change", { detail: { stores: ["runs"], runs: [], isMine: false } }));
  }

  /**
   * @param {Record<string, {put?: object[], mark?: object[], delete?: string[]}>} changes by store, as store.js takes them
   * @param {{strict?: boolean, under?: string|null}} [options] strict for what the maker did
   * @throws {StoreError} when the disk did not take it; then nothing has changed anywhere
   */
  async commit(changes, options) {
    await this.#store.write(changes, options);
    this.#apply(changes, true);
    this.#channel?.postMessage(changes);
  }

  /**
   * Replace one meta value by what `change` makes of it; when two tabs do so at once, the second
   * is given what the first one made. @returns {Promise<any>} the value that is there now
   */
  async revise(key, change) {
    const value = await this.#store.revise(key, change);
    this.meta.set(key, value);
    this.#channel?.postMessage({ meta: { put: [{ key, value }] } });
    return value;
  }

  /** A recipe's document as it was in that version, or undefined. */
  async document(recipe, version) {
    const current = this.recipes.get(recipe);
    if (current?.version === version) return current.document;
    return (await this.version(recipe, version))?.document;
  }

  /** A recipe version that a run here was made by: {document, measured?}; undefined when it is not here. */
  version(recipe, version) {
    return this.#store.get("versions", versionKey(recipe, version));
  }

  /** Every run, and the shelf. */
  get journals() {
    return [...this.runs.values(), this.shelf];
  }

  /** A run, or the shelf, by what its entries name as their run; undefined when it is not here. */
  journal(id) {
    return id === SHELF ? this.shelf : this.runs.get(id);
  }

  /** The photograph itself, a Blob; undefined when this phone does not hold it. */
  async picture(id) {
    const row = await this.#store.get("pictures", id);
    if (!row) return undefined;
    return row.blob ?? new Blob([row.bytes], { type: "image/jpeg" }); // a row of an earlier page holds the Blob itself
  }

  close() {
    this.#channel?.close();
    this.#store.close();
  }

  #listen() {
    if (!globalThis.BroadcastChannel) return;
    this.#channel = new BroadcastChannel("bowlside");
    this.#channel.onmessage = ({ data }) => {
      if (data.told) this.dispatchEvent(new CustomEvent("told", { detail: data.told }));
      else this.#apply(data);
    };
  }

  /** Say something to the phone's other tabs, after all that was committed before; they get it as "told". */
  tell(told) {
    this.#channel?.postMessage({ told });
  }

  /** @param [isMine] by this tab, and not by another */
  #apply(changes, isMine = false) {
    const { runs, entries, outbox } = changes;
    if (!this.isWhole) this.#meanwhile.push({ runs, entries, outbox });
    const detail = { stores: Object.keys(changes), runs: [...this.#take(changes)], isMine };
    this.dispatchEvent(new CustomEvent("change", { detail }));
  }

  /** @returns {Set<string>} the runs that changed */
  #take(changes) {
    const touched = new Set();
    for (const row of changes.runs?.put ?? []) {
      const run = this.runs.get(row.id);
      if (run) run.take(row);
      else this.runs.set(row.id, new Run(row));
      touched.add(row.id);
    }
    for (const entry of changes.entries?.put ?? []) {
      this.journal(entry.run)?.put(entry);
      touched.add(entry.run);
    }
    for (const row of changes.outbox?.put ?? []) {
      this.journal(row.run)?.mark(row.id, row);
      touched.add(row.run);
    }
    for (const row of changes.outbox?.mark ?? []) {
      const journal = this.journal(row.run);
      if (!journal?.hasRow(row.id)) continue;
      journal.mark(row.id, row);
      touched.add(row.run);
    }
    for (const id of changes.outbox?.delete ?? []) {
      const journal = this.runs.get(id) ?? this.journals.find((each) => each.holds(id));
      journal?.mark(id, null);
      if (journal) touched.add(journal.id);
    }
    for (const row of changes.recipes?.put ?? []) this.recipes.set(row.id, row);
    for (const row of changes.drafts?.put ?? []) this.drafts.set(row.id, row);
    for (const id of changes.drafts?.delete ?? []) this.drafts.delete(id);
    for (const row of changes.versions?.put ?? []) this.versions.add(row.id);
    for (const row of changes.kit?.put ?? []) this.kit = row;
    for (const row of changes.preferences?.put ?? []) this.preferences.set(row.key, row.value);
    for (const row of changes.meta?.put ?? []) this.meta.set(row.key, row.value);
    return touched;
  }
}
