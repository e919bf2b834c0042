/**
 * The book: what is on this phone's disk, mirrored in memory, the same in every tab.
 *
 * One way in: `commit(changes)` writes to the disk, and only when it is there does the change
 * reach memory and the phone's other tabs. So what a screen shows is always kept.
 *
 * Opened early, it begins with the runs that are open, and reads the finished ones when asked (`readRest`).
 * Which those are, and what a list of them shows, it notes as meta "closed".
 */

import { entriesOf, laid, opened } from "./texts.js";
import { Journal, Run, SHELF } from "./run.js";
/** @import { HearsClass } from "../../types/events" */
/** @import { Changes, DraftRow, KitRow, Meta, MetaMap, RecipeRow, StoreName } from "../../types/keep" */
/** @import { WriteOptions } from "../../types/keep" */
/** @import { Store } from "./store.js" */

/** How the store of recipe versions names one. @param {string} recipe @param {number} version */
export function versionKey(recipe, version) {
  return `${recipe}/${version}`;
}

/**
 * @typedef {{stores: StoreName[], runs: string[], isMine: boolean}} BookChange
 * @typedef {{wanted?: {lists?: boolean, now?: boolean, ask?: number, inSight?: boolean}, here?: boolean,
 *   rested?: number}} Told rested: after a round that began once this was asked
 * @typedef {{change: BookChange, told: Told}} BookEvents
 */

/** @type {Exclude<StoreName, "versions" | "pictures" | "seen">[]} */
const STORES = ["recipes", "drafts", "kit", "runs", "entries", "outbox", "preferences", "meta"];

/** So many finished runs are read in one piece, so that none holds a touch up. */
const PIECE = 5;

/** @param {Changes} changes */
const storesOf = (changes) => /** @type {StoreName[]} */ (Object.keys(changes));

export class Book extends /** @type {HearsClass<BookEvents>} */ (EventTarget) {
  /** @type {Store} */
  #store;
  /** @type {BroadcastChannel | undefined} */
  #channel;
  /** @type {string[]} */
  #later = []; // the runs that are not read yet
  /** @type {Changes[]} */
  #meanwhile = []; // what changed while they were not
  /** @type {Promise<void> | null} */
  #reading = null;

  /** @type {Map<string, RecipeRow>} */
  recipes = new Map();
  /** @type {Map<string, DraftRow>} */
  drafts = new Map();
  /** Null until the server was first heard. @type {KitRow | null} */
  kit = null;
  /** @type {Map<string, Run>} */
  runs = new Map();
  /** What is in the house: a journal of its own. */
  shelf = new Journal(SHELF);
  /** "recipe/version" of each recipe version on the disk; only a lost server needs what they say. */
  versions = new Set();
  /** @type {Map<string, string | number | boolean>} */
  preferences = new Map();
  meta = /** @type {MetaMap} */ (new Map());

  /** @param {Store} store */
  constructor(store) {
    super();
    this.#store = store;
    this.#listen();
  }

  /** @param {Store} store @param {{early?: boolean}} [how] @returns {Promise<Book>} */
  static async open(store, { early = false } = {}) {
    const book = new Book(store);
    const rows = early ? await book.#readEarly() : await store.read(...STORES);
    book.versions = new Set(await store.keys("versions"));
    /** @type {Changes} */
    const read = Object.fromEntries(STORES.map((name) => [name, { put: rows[name] }]));
    book.#take(read);
    return book;
  }

  /** All but the runs that are known to be finished, and of which nothing is to be sent. */
  async #readEarly() {
    const rows = await this.#store.read(...STORES.filter((name) => name !== "runs" && name !== "entries"));
    const noted = rows.meta.find(({ key }) => key === "closed");
    const closed = /** @type {Meta["closed"]} */ (noted?.value ?? {});
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
    const closed = this.meta.get("closed") ?? {};
    while (this.#later.length > 0) {
      const { runs, entries } = await this.#store.runs(this.#later.splice(0, PIECE));
      this.#take({ runs: { put: runs }, entries: { put: entries } });
      for (const { id } of runs) {
        const run = this.runs.get(id);
        if (run) run.closed = closed[id] ?? null;
      }
      await new Promise((resolve) => setTimeout(resolve));
    }
    for (const changes of this.#meanwhile.splice(0)) this.#take(changes); // of what came for a run before it was read
    this.#reading = null;
    this.dispatchEvent(new CustomEvent("change", { detail: { stores: ["runs"], runs: [], isMine: false } }));
  }

  /**
   * @param {Changes} changes by store, as store.js takes them
   * @param {WriteOptions} [options] strict for what the maker did
   * @throws {StoreError} when the disk did not take it; then nothing has changed anywhere
   */
  async commit(changes, options) {
    const { recipes } = changes;
    const lain = recipes?.put ? { ...changes, recipes: { ...recipes, put: recipes.put.map(laid) } } : changes;
    await this.#store.write(lain, options);
    this.#apply(lain, true);
    this.#channel?.postMessage(lain);
  }

  /**
   * Replace one meta value by what `change` makes of it; when two tabs do so at once, the second
   * is given what the first one made.
   * @template {keyof Meta} K
   * @param {K} key @param {(value: Meta[K] | undefined) => Meta[K]} change
   * @returns {Promise<Meta[K]>} the value that is there now
   */
  async revise(key, change) {
    const value = await this.#store.revise(key, change);
    this.meta.set(key, value);
    this.#channel?.postMessage({ meta: { put: [{ key, value }] } });
    return value;
  }

  /** A recipe's document as it was in that version, or undefined. @param {string} recipe @param {number} version */
  async document(recipe, version) {
    const current = this.recipes.get(recipe);
    if (current?.version === version) return current.document;
    return (await this.version(recipe, version))?.document;
  }

  /**
   * A recipe version that a run here was made by; undefined when it is not here.
   * @param {string} recipe @param {number} version
   */
  version(recipe, version) {
    return this.#store.get("versions", versionKey(recipe, version));
  }

  /** What the server worked out, as last seen; undefined where it never was. @param {string} key */
  seen(key) {
    return this.#store.get("seen", key);
  }

  /** Every run, and the shelf. */
  get journals() {
    return [...this.runs.values(), this.shelf];
  }

  /**
   * A run, or the shelf, by what its entries name as their run; undefined when it is not here.
   * @param {string} id @returns {Journal | undefined}
   */
  journal(id) {
    return id === SHELF ? this.shelf : this.runs.get(id);
  }

  /** The photograph, or a paper's file; undefined when this phone does not hold it. @param {string} id */
  async picture(id) {
    const row = await this.#store.get("pictures", id);
    if (!row) return undefined;
    // A row of an earlier page holds the Blob itself.
    return row.blob ?? new Blob(row.bytes ? [row.bytes] : [], { type: row.type ?? "image/jpeg" });
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

  /** Say something to the phone's other tabs, after all that was committed before. @param {Told} told as they get it */
  tell(told) {
    this.#channel?.postMessage({ told });
  }

  /** @param {Changes} changes @param {boolean} [isMine] by this tab, and not by another */
  #apply(changes, isMine = false) {
    const { runs, entries, outbox } = changes;
    if (!this.isWhole) this.#meanwhile.push({ runs, entries, outbox });
    const detail = { stores: storesOf(changes), runs: [...this.#take(changes)], isMine };
    this.dispatchEvent(new CustomEvent("change", { detail }));
  }

  /** @param {Changes} changes @returns {Set<string>} the runs that changed */
  #take(changes) {
    /** @type {Set<string>} */
    const touched = new Set();
    for (const row of changes.runs?.put ?? []) {
      const run = this.runs.get(row.id);
      if (run) run.take(row);
      else this.runs.set(row.id, new Run(row));
      touched.add(row.id);
    }
    for (const entry of entriesOf(changes.entries?.put ?? [])) {
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
    for (const row of changes.recipes?.put ?? []) this.recipes.set(row.id, opened(row));
    for (const row of changes.drafts?.put ?? []) this.drafts.set(row.id, row);
    for (const id of changes.drafts?.delete ?? []) this.drafts.delete(id);
    for (const row of changes.versions?.put ?? []) this.versions.add(row.id);
    for (const row of changes.kit?.put ?? []) this.kit = row;
    for (const row of changes.preferences?.put ?? []) this.preferences.set(row.key, row.value);
    for (const row of changes.meta?.put ?? []) this.meta.set(row.key, row.value);
    return touched;
  }
}
