/**
 * A journal as this phone knows it, and a run: its sheet, its journal, and the state folded from both.
 *
 * The state is folded when somebody looks, and again only after this run's journal changed. The shelf
 * is a journal too; its screens fold it, since the bench does not need it.
 */

import { Folding } from "../bench/index.js";
import { releaseStatus } from "../bench/release.js";
import { openSheet } from "../bench/sheet/former.js";
import { isToSend, isUnread } from "./sync-machine.js";
import { say } from "../words.js";
/** @import { Sheet, State } from "../../bench/shapes/page" */
/** @import { KeptEntry, OutboxRow, RunRow, RunTold } from "../../types/keep" */

/** @typedef {{at: number, device: string, id: string}} Placed */

/** The order every replica folds in: time, then device, then id. @param {Placed} a @param {Placed} b */
export function inOrder(a, b) {
  return a.at - b.at || compare(a.device, b.device) || compare(a.id, b.id);
}

/** @param {string} a @param {string} b */
function compare(a, b) {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** What the shelf's entries name as their run. */
export const SHELF = "shelf";

/** What the server said to it, or a word of this phone's own (sync.js, sync-round.js). @param {string} refused */
function whyRefused(refused) {
  if (refused === "held") return say("page-keep-held");
  return refused === "not_taken" ? say("page-keep-not-taken") : refused;
}

export class Journal {
  /** @type {Map<string, KeptEntry>} */
  #entries = new Map();
  /** @type {Map<string, OutboxRow>} */
  #outbox = new Map();
  /** @type {KeptEntry[] | null} */
  #sorted = null;
  #stamped = 0;

  /** @param {string} id */
  constructor(id) {
    this.id = id;
  }

  /** The journal, in order, less what the maker has set aside, and less a signing, or its undo, that was refused. */
  get entries() {
    this.#sorted ??= [...this.#entries.values()]
      .filter((entry) => !this.#isOut(this.#outbox.get(entry.id), entry))
      .sort(inOrder);
    return this.#sorted;
  }

  /** @param {OutboxRow | null | undefined} row @param {KeptEntry | undefined} entry */
  #isOut(row, entry) {
    return Boolean(row?.aside || (row?.refused && entry && isSealing(entry, this.#entries)));
  }

  /** The signings that nobody has yet but this phone, refused or not. */
  unsentSignings() {
    const own = this.rows.filter((row) => !row.sent && !row.held && !row.given_back);
    return own
      .flatMap(({ id }) => this.#entries.get(id) ?? [])
      .filter(({ kind, body }) => kind === "signed" && body.entries);
  }

  /** No entry is older than this instant, in ms. @returns {number} */
  get floor() {
    return 0;
  }

  /** How many things of this journal the server has not answered for, refused ones not counted. */
  get unsent() {
    let count = 0;
    for (const row of this.#outbox.values()) if (isToSend(row)) count += 1;
    return count;
  }

  /** All that stands in the outbox of this journal. */
  get rows() {
    return [...this.#outbox.values()];
  }

  /** The ids of all entries, set aside or not. */
  get allIds() {
    return [...this.#entries.keys()];
  }

  /** @param {string} id */
  hasRow(id) {
    return this.#outbox.has(id);
  }

  /** The server said no to the run itself, so it will not take its entries either. */
  get isRefused() {
    return Boolean(this.#outbox.get(this.id)?.refused);
  }

  /** What the server refused and why; entry and picture are null when it refused the run itself. */
  get refused() {
    return [...this.#outbox.values()]
      .filter((row) => row.refused && !row.aside)
      .map((row) => ({
        run: this.id,
        entry: this.#entries.get(row.id) ?? null,
        picture: row.picture ? row.id : null,
        detail: whyRefused(row.refused ?? ""),
      }));
  }

  /** @param {string} id */
  entry(id) {
    return this.#entries.get(id);
  }

  /** How many entries there are, set aside or not. */
  get count() {
    return this.#entries.size;
  }

  /** Nothing stands in the outbox of this journal. */
  get isSettled() {
    return this.#outbox.size === 0;
  }

  /** Whether this entry, or this thing still to be sent, is of this journal. @param {string} id */
  holds(id) {
    return this.#entries.has(id) || this.#outbox.has(id);
  }

  /**
   * The instant for a new entry: later than any entry of the run this phone has seen, so that
   * what the maker does in answer to an entry always sorts after it. Of the run, not of all runs:
   * one entry from a phone whose clock runs a day ahead must not carry every other run with it.
   * @param {number} now
   */
  stamp(now) {
    this.#stamped = Math.max(now, this.floor, this.#stamped + 1, (this.entries.at(-1)?.at ?? 0) + 1);
    return this.#stamped;
  }

  /** @param {KeptEntry} entry */
  put(entry) {
    const last = this.#sorted?.at(-1);
    const isNext =
      !this.#entries.has(entry.id) &&
      !this.#outbox.get(entry.id)?.refused &&
      (!last || inOrder(last, entry) < 0);
    this.#entries.set(entry.id, entry);
    // Nearly always the newest entry: no need to sort thousands again. A new array, because
    // a screen may still hold the old one.
    if (isNext && this.#sorted) {
      this.#sorted = [...this.#sorted, entry];
    } else this.#forget();
  }

  /** @param {string} id @param {OutboxRow | null} row null: the server has it now */
  mark(id, row) {
    const entry = this.#entries.get(id);
    const wasOut = this.#isOut(this.#outbox.get(id), entry);
    if (row) this.#outbox.set(id, row);
    else this.#outbox.delete(id);
    if (wasOut !== this.#isOut(row, entry)) this.#forget();
  }

  #forget() {
    this.#sorted = null;
    this.#stamped = 0; // an instant may have been put right since
  }

  /** Outbox rows still to be sent, the run itself before its entries. */
  waiting() {
    return this.rows.filter(isToSend);
  }

  /** Outbox rows to be read back from the server. */
  unread() {
    return this.rows.filter(isUnread);
  }

  /** Whether the entry that tells of this picture is still to be looked for on the server. */
  /** @param {string} picture */
  isHeld(picture) {
    const entry = this.entries.find(({ kind, body }) => kind === "pictured" && body.picture === picture);
    return Boolean(entry && this.#outbox.get(entry.id)?.held);
  }

  /** Outbox rows of what was entered while the clock was a guess; nobody else has them. */
  guessed() {
    return [...this.#outbox.values()].filter((row) => row.guessed);
  }
}

export class Run extends Journal {
  /** @type {RunRow} */
  #row;
  /** @type {Sheet | null} */
  #sheet = null;
  /** @type {State | null} */
  #state = null;
  /** @type {Folding | null} */
  #folding = null;
  /** @type {KeptEntry[] | null} */
  #folded = null; // the entries that the state says
  /**
   * What was noted of it when it was last folded, finished (`told`); no longer believed once anything is different.
   * @type {RunTold | null}
   */
  closed = null;

  /** @param {RunRow} row as it lies on the phone's disk */
  constructor(row) {
    super(row.id);
    this.#row = row;
  }

  /** @param {RunRow} row */
  take(row) {
    this.#row = row;
    this.#sheet = null;
    this.#folding = null;
    this.#folded = null;
    this.closed = null;
  }

  get recipe() {
    return this.#row.recipe;
  }

  get size() {
    return this.#row.size;
  }

  /** As this version uses it; `row` has it as it is kept. */
  get sheet() {
    this.#sheet ??= openSheet(this.#row.sheet);
    return this.#sheet;
  }

  get created_at() {
    return this.#row.created_at;
  }

  get made_at() {
    return this.#row.made_at ?? null;
  }

  get sealed() {
    return this.#row.sealed ?? null;
  }

  /** The run as it lies on the phone's disk. */
  get row() {
    return rowOf({ ...this.#row, made_at: this.made_at, sealed: this.sealed });
  }

  /** When it was begun at the bench: as the server says, and until it does, as this phone does. */
  get floor() {
    return this.made_at ?? this.created_at;
  }

  get state() {
    const { entries } = this;
    if (this.#state === null || this.#folded !== entries) {
      this.#state = this.#fold(entries);
      this.#folded = entries;
    }
    return this.#state;
  }

  /** @param {readonly KeptEntry[]} entries */
  #fold(entries) {
    this.#folding ??= new Folding(this.sheet);
    return this.#folding.of(entries, this.sealed);
  }

  /**
   * The state as it will be once these are kept: folded while the disk writes them, and not again when they are there.
   * @param {readonly KeptEntry[]} entries
   */
  foresee(entries) {
    return this.#fold([...this.entries, ...entries]);
  }

  get open() {
    return this.told.finished_at === null;
  }

  /** What a list says of it: folded, or as it was noted. @returns {RunTold} */
  get told() {
    if (this.#folded === null && this.closed?.count === this.count && this.isSettled) return this.closed;
    const { number, finished_at } = this.state;
    return {
      number,
      finished_at,
      release: releaseStatus(this.state),
      count: this.count,
      title: this.sheet.recipe.title,
      size: { pieces: this.size.pieces },
      piece: this.sheet.piece,
    };
  }

  /** What tells it from others: its number, and until it has one its title. */
  get name() {
    return this.told.number || this.sheet.recipe.title;
  }
}

/** Of a run, this phone's or the server's, what lies on the phone's disk. @param {RunRow} row @returns {RunRow} */
export function rowOf({ id, recipe, size, sheet, created_at, made_at, sealed }) {
  return { id, recipe, size, sheet, created_at, made_at, sealed };
}

/**
 * Whether an entry signs a record or takes a signing back; what the server refuses of these does not count here
 * either.
 * @param {KeptEntry} entry @param {Map<string, KeptEntry>} entries
 */
function isSealing({ kind, body }, entries) {
  return kind === "signed" || (kind === "undone" && entries.get(String(body.entry))?.kind === "signed");
}
