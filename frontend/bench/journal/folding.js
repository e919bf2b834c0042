/**
 * The fold: entries in, in order; the state out. What an entry tells is taken in at the bowls, by steps or on paper.
 */

import { inOrder, JUDGEMENTS, lessUndone } from "../entries.js";
import { AT_THE_BOWLS } from "./bowls.js";
import { draw } from "./drawing.js";
import { ON_PAPER } from "./paper.js";
import { KINDS, read } from "./reading.js";
import { idsOf, judge } from "./signing.js";
import { OF_STEPS } from "./steps.js";
import { begin, sign } from "./tally.js";
/** @import { Entry, FrozenSeal, RunEntry, Sheet, State } from "../../../bench/shapes/page" */
/** @import { Takes } from "../../../types/bench" */
/** @import { Tally } from "./tally.js" */

/** One function a kind. It answers false when the entry makes no sense on this sheet. @type {Takes} */
const TAKES = { ...AT_THE_BOWLS, ...OF_STEPS, ...ON_PAPER };

/**
 * The state: what the sheet and the journal together say. Never throws for any set of entries.
 *
 * frozen: what a signing that names nothing seals, as the server keeps it; else null.
 * @param {Sheet} sheet @param {readonly Entry[]} entries @param {FrozenSeal | null} [frozen] @returns {State}
 */
export function fold(sheet, entries, frozen = null) {
  return draw(takeAll(sheet, inOrder(entries), frozen));
}

/**
 * The same of a journal that mostly grows at its end: what was taken in before is gone on from, and only an undo, a
 * signing, or an entry that stands before others has all of it taken in anew.
 *
 *   const folding = new Folding(sheet);
 *   folding.of(entries, frozen)          // entries in order, each once
 */
export class Folding {
  /** @type {Sheet} */
  #sheet;
  /** @type {readonly Entry[]} */
  #had = [];
  /** @type {Tally | null} */
  #tally = null;
  /** @type {State | null} */
  #state = null; // what all that was had says

  /** @param {Sheet} sheet */
  constructor(sheet) {
    this.#sheet = sheet;
  }

  /** @param {readonly Entry[]} entries @param {FrozenSeal | null} [frozen] @returns {State} */
  of(entries, frozen = null) {
    const more = frozen === null && this.#tally ? this.#more(entries) : null;
    if (this.#state && more?.length === 0) return this.#state;
    const tally = more && this.#tally ? this.#tally : takeAll(this.#sheet, inOrder(entries), frozen);
    for (const entry of more ?? []) takeOne(tally, entry);
    this.#had = entries;
    // Signings are judged over all there is.
    const goesOn = frozen === null && !entries.some(({ kind }) => kind === "signed");
    this.#tally = goesOn ? tally : null;
    this.#state = draw(goesOn ? twin(tally) : tally);
    return this.#state;
  }

  /** What came after all that was had; null when that is not all that is new. @param {readonly Entry[]} entries */
  #more(entries) {
    const had = this.#had;
    if (entries.length < had.length || had.some((entry, place) => entries[place] !== entry)) return null;
    const more = entries.slice(had.length);
    if (more.some(({ kind }) => kind === "undone" || kind === "signed")) return null;
    const last = [...had.slice(-1), ...more];
    const ordered = inOrder(last);
    return ordered.length === last.length && ordered.every((entry, place) => entry === last[place])
      ? more
      : null;
  }
}

const OF_SHEET = new Set(["sheet", "steps", "lines", "vessels", "parts", "splitOf", "rounds", "gatherable"]);

/**
 * What is known, once more: to be told from, which settles what follows, while the other is gone on with.
 * @param {Tally} tally @returns {Tally}
 */
function twin(tally) {
  /** @param {[string, unknown]} field */
  const copied = ([name, value]) => {
    if (value instanceof Map) return [name, new Map(value)];
    if (value instanceof Set) return [name, new Set(value)];
    return [name, Array.isArray(value) ? [...value] : value];
  };
  /** @type {Tally} */
  const copy = {
    ...tally,
    ...Object.fromEntries(
      Object.entries(tally)
        .filter(([name]) => !OF_SHEET.has(name))
        .map(copied),
    ),
  };
  for (const [step, bursts] of copy.bursts) copy.bursts.set(step, [...bursts.map((burst) => ({ ...burst }))]);
  for (const [step, looks] of copy.looks) copy.looks.set(step, [...looks]);
  for (const [step, count] of copy.counts) copy.counts.set(step, { ...count, of: { ...count.of } });
  return copy;
}

/**
 * What is known once all of them are taken in.
 * @param {Sheet} sheet @param {Entry[]} ordered @param {FrozenSeal | null} frozen
 */
function takeAll(sheet, ordered, frozen) {
  const { signing, ids, unsigned, unfit } = judge(ordered, frozen);
  const tally = begin(sheet, unsigned);
  const sealed = signing ? ordered.filter(({ id }) => ids.has(id)) : ordered;
  for (const entry of lessUndone(sealed)) {
    if (unfit.has(entry.id)) tally.unread.push(entry.id);
    else takeOne(tally, entry);
  }
  if (signing) {
    sign(tally, signing, idsOf(sealed), ids.size);
    for (const entry of lessUndone(ordered.filter(({ id }) => !ids.has(id)))) {
      if (entry.id === signing.id) continue;
      if (JUDGEMENTS.has(entry.kind)) takeOne(tally, entry);
      else if (unfit.has(entry.id) || !read(entry) || !remark(tally, entry)) tally.unread.push(entry.id);
    }
  }
  return tally;
}

/** @param {Tally} tally @param {Entry} entry */
function takeOne(tally, entry) {
  const told = read(entry);
  if (!told || !take(tally, told)) tally.unread.push(entry.id);
}

/**
 * Takes one well-formed entry in; false when it speaks of something not on this sheet.
 * @param {Tally} tally @param {RunEntry} entry
 */
function take(tally, entry) {
  const { at, kind, body } = entry;
  const taken = /** @type {(tally: Tally, at: number, body: unknown, entry: RunEntry) => boolean | void} */ (
    TAKES[kind]
  );
  if (!isHere(tally, entry) || taken(tally, at, body, entry) === false) return false;
  if (JUDGEMENTS.has(kind)) return true; // it is no work at the bench
  tally.startedAt ??= at;
  tally.lastAt = at;
  return true;
}

/**
 * Puts one that was not signed beside the record; false when it speaks of something not on this sheet.
 * @param {Tally} tally @param {Entry} entry
 */
function remark(tally, entry) {
  if (!isHere(tally, entry)) return false;
  const { id, at, device, kind, body } = entry;
  tally.remarks.push({ id, at, device, kind, body });
  return true;
}

/**
 * Whether the step, line and vessel that an entry names are on this sheet.
 * @param {Tally} tally @param {Entry | RunEntry} entry
 */
function isHere({ steps, lines, vessels }, { kind, body }) {
  const fields = /** @type {{[field: string]: string | undefined}} */ (body);
  return (KINDS.get(kind) ?? []).every(({ name }) => {
    const named = name === "step" ? steps : name === "line" ? lines : name === "vessel" ? vessels : null;
    const key = fields[name];
    return !named || key === undefined || named.has(key);
  });
}
