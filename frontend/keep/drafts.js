/**
 * Recipes being written. A draft is on the phone's disk from its first letter; the server keeps
 * it as a version when it can be reached, and never over somebody else's.
 *
 *   await drafts.write({ id, base: 3, was, document });   // on this phone's disk; was: the version begun from, or null
 *   await drafts.flush();                                 // now: the field is left, or the page goes
 * await drafts.send(id); // "kept", "same", "waits", "changed", or {errors: [{field, detail}]}
 *
 * Two edits of one recipe are both kept: the server's is the version, this phone's stays a draft. A
 * draft that the server refused, perhaps long after it was handed over, carries the `errors`; one
 * that gave up some of the maker's own words in putting two edits together carries those words as
 * `first`, which become a version just before it.
 */

import { canonical } from "../bench/index.js";
import { Refused, saysStatus, Unreachable } from "./server.js";
/** @import { WrittenRecipe } from "../../bench/shapes/page" */
/** @import { Changes, DraftRow, Fault, RecipeRow } from "../../types/keep" */
/** @import { Checked } from "../../types/server" */
/** @import { Book } from "./book.js" */
/** @import { Server } from "./server.js" */

/** Letters come faster than a disk should be asked to write: so long after the last one they are written. */
const REST_MS = 250;
/** As a document is sent. What reads one is fetched with the pages that write one. @param {WrittenRecipe} document */
const tidied = async (document) => (await import("../bench/draft.js")).tidy(document);

/** @typedef {"kept" | "same" | "waits" | "changed" | {errors: Fault[]}} SendAnswer */

export class Drafts {
  #book;
  #server;
  #now;
  /** @type {Map<string, DraftRow>} */
  #waiting = new Map();
  /** @type {Map<string, DraftRow>} */
  #putting = new Map(); // on their way to the disk
  /** @type {Promise<void> | null} */
  #writing = null;
  #resting = 0;
  /** @type {{resolve: () => void, reject: (error: unknown) => void}[]} */
  #heard = []; // who waits for what is waiting
  /** @type {Set<string>} */
  #sending = new Set();

  /** @param {{book: Book, server: Server, now: () => number}} given */
  constructor({ book, server, now }) {
    this.#book = book;
    this.#server = server;
    this.#now = now;
  }

  /** The newest first. */
  get all() {
    return [...new Map([...this.#book.drafts, ...this.#putting, ...this.#waiting]).values()].sort(
      (a, b) => b.at - a.at,
    );
  }

  /** As it was last written, on the disk or on its way there. @param {string} id */
  get(id) {
    return this.#waiting.get(id) ?? this.#putting.get(id) ?? this.#book.drafts.get(id);
  }

  /**
   * The last one written wins. Resolved once it is on the disk: at once for a first letter, and else when the writer
   * rests.
   * @param {Pick<DraftRow, "id" | "base" | "document"> & {was?: DraftRow["was"], first?: DraftRow["first"]}} draft
   * @returns {Promise<void>}
   */
  write({ id, base, was = null, document, first = null }) {
    const isFirst = !this.get(id);
    this.#waiting.set(id, { id, base, was, document, first, at: this.#now(), send: false, errors: null });
    clearTimeout(this.#resting);
    if (isFirst) return this.flush();
    this.#resting = setTimeout(() => this.flush().catch(() => {}), REST_MS);
    return new Promise((resolve, reject) => this.#heard.push({ resolve, reject }));
  }

  /** Write what waits, now. @returns {Promise<void>} once all of it is on the disk */
  flush() {
    clearTimeout(this.#resting);
    if (this.#waiting.size > 0) {
      this.#writing ??= this.#drain().finally(() => {
        this.#writing = null;
      });
    }
    const written = this.#writing ?? Promise.resolve();
    for (const { resolve, reject } of this.#heard.splice(0)) written.then(resolve, reject);
    return written;
  }

  async #drain() {
    while (this.#waiting.size > 0) {
      [this.#putting, this.#waiting] = [this.#waiting, new Map()];
      try {
        await this.#book.commit({ drafts: { put: [...this.#putting.values()] } }, { strict: true });
      } finally {
        this.#putting = new Map();
      }
    }
  }

  /** @param {string} id */
  async drop(id) {
    this.#waiting.delete(id);
    await this.flush();
    await this.#book.commit({ drafts: { delete: [id] } }, { strict: true });
  }

  /**
   * What the server reads in a document, and its check of it.
   * @param {WrittenRecipe} document @param {{temperature_c: string, humidity: string} | null} air null: not measured
   * @returns {Promise<Checked | {errors: Fault[]}>}
   * @throws {Unreachable}
   */
  async check(document, air) {
    const query = air ? `?${new URLSearchParams(air)}` : "";
    try {
      return (await this.#server.ask("POST", `/checks${query}`, await tidied(document))).body;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      return { errors: faults(error) };
    }
  }

  /** @param {string} id @returns {Promise<SendAnswer>} */
  async send(id) {
    await this.flush();
    const draft = this.get(id);
    if (!draft) return "same";
    if (this.#sending.has(id)) return "waits";
    this.#sending.add(id);
    try {
      return await this.#send(draft);
    } catch (error) {
      if (error instanceof Unreachable) return this.#keepAs(draft, { send: true }, "waits");
      if (!(error instanceof Refused)) throw error;
      const errors = faults(error);
      return this.#keepAs(draft, { send: false, errors }, { errors });
    } finally {
      this.#sending.delete(id);
    }
  }

  /** Those that wait for the server, now that it answers. */
  async sendWaiting() {
    for (const { id, send } of this.all) if (send) await this.send(id);
  }

  /** @param {DraftRow} draft */
  async #send(draft) {
    const { id, document } = draft;
    /** @type {RecipeRow | null} */
    let kept = await this.#putOn(draft, this.#tagOf(draft));
    if (!kept) {
      const there = await this.#read(id);
      if (canonical(there.document) === canonical(await tidied(document)))
        kept = there; // it is this draft, and the answer to it was lost
      else {
        await this.#book.commit({ recipes: { put: [there] } });
        // Put back from a copy, a server has what the draft was begun from under another tag.
        if (isBegunFrom(draft, there)) kept = await this.#putOn(draft, there.etag);
        if (!kept) return this.#keepAs(draft, { send: false }, "changed");
      }
    }
    await this.flush();
    const now = this.get(id);
    /** @type {Changes} */
    const changes = { recipes: { put: [kept] } };
    // What was written while it was on its way stays a draft, on top of what is kept now.
    if (now?.document === document) changes.drafts = { delete: [id] };
    else if (now) changes.drafts = { put: [{ ...now, base: kept.version, was: kept.document, first: null }] };
    await this.#book.commit(changes, { strict: true });
    return "kept";
  }

  /**
   * The tag of what a draft was begun from; null for a new recipe, and where this phone has another version by now.
   * @param {DraftRow} draft
   */
  #tagOf(draft) {
    const recipe = this.#book.recipes.get(draft.id);
    return recipe && isBegunFrom(draft, recipe) ? (recipe.etag ?? null) : null;
  }

  /**
   * The version that a draft became; null where the server has another than it was begun from.
   * @param {DraftRow} draft @param {string | null} etag @returns {Promise<RecipeRow | null>}
   */
  async #putOn(draft, etag) {
    if (draft.base !== null && !etag) return null;
    try {
      return await this.#put(draft.id, await this.#below(draft, etag), draft.document);
    } catch (error) {
      if (!saysStatus(error, 412, 428)) throw error;
      return null;
    }
  }

  /**
   * The tag of what to put a draft on: that, or its maker's own words of before on top of that.
   * @param {DraftRow} draft @param {string | null} etag
   */
  async #below({ id, first }, etag) {
    if (!first) return etag;
    try {
      return (await this.#put(id, etag, first)).etag;
    } catch (error) {
      if (!saysStatus(error, 422)) throw error;
      return etag; // words that cannot be read cannot be a version
    }
  }

  /** @param {string} id @param {string | null} etag @param {WrittenRecipe} document */
  async #put(id, etag, document) {
    const { body, etag: now } = await this.#server.ask("PUT", `/recipes/${id}`, await tidied(document), {
      headers: etag ? { "If-Match": etag } : {},
    });
    return { ...body, etag: now };
  }

  /** @param {string} id */
  async #read(id) {
    const { body, etag } = await this.#server.get(`/recipes/${id}`);
    return { ...body, etag };
  }

  /**
   * Mark the draft, unless it has been written on meanwhile.
   * @template {SendAnswer} A
   * @param {DraftRow} draft @param {Partial<DraftRow>} marks @param {A} answer
   */
  async #keepAs(draft, marks, answer) {
    await this.flush();
    if (this.get(draft.id)?.document === draft.document)
      await this.#book.commit({ drafts: { put: [{ ...draft, ...marks }] } }, { strict: true });
    return answer;
  }
}

/**
 * Whether a draft was begun from this: by what it says, since after a restore another may have its number.
 * @param {Pick<DraftRow, "base" | "was">} one @param {Pick<RecipeRow, "version" | "document">} other
 */
const isBegunFrom = ({ base, was }, { version, document }) =>
  base !== null && (was ? canonical(was) === canonical(document) : base === version);
/** @param {Refused} error @returns {Fault[]} */
const faults = ({ errors, detail }) => (errors?.length ? errors : [{ field: "", detail }]);
