/**
 * What rings when: one timer for all waits, windows and guides of all open runs.
 *
 * Never early; each ring once on each phone, remembered over reloads. What fell due while the
 * page could not ring is rung on return, but only the latest of each wait, and `missed` lists it.
 * What is late insists, three times and no more. What comes soon is told ahead, so that it can be laid
 * on the clock of the sound, which no sleeping timer holds up.
 */

import { rings, warnAt } from "../bench/index.js";
/** @import { HearsClass } from "../../types/events" */
/** @import { Coming, Due, Item, RingPhase } from "../../types/keep" */
/** @import { Book } from "./book.js" */
/** @import { Clock } from "./clock.js" */

/** After this long a ring that was rung is forgotten; its wait is long over. */
const FORGET_MS = 14 * 24 * 3600 * 1000;
/** A timer never sleeps longer than this, since a clock may be corrected meanwhile. */
const LONGEST_NAP_MS = 60_000;
/** So long ahead a ring is laid on the clock of the sound: a hidden page is woken about once a minute. */
const AHEAD_MS = 150_000;
/** A tab that follows leaves the first word to the one that leads, which may have it on the sound's clock. */
const FOLLOW_MS = 1_000;
/** Past its latest a thing rings at once and twice more. Common practice: often enough to be heard, not to be hated. */
const PAST_MS = [0, 5 * 60_000, 15 * 60_000];
/** A burst that is over is asked for again: what heats on scorches within minutes. Common practice. */
/** @type {[RingPhase, number][]} */
const BURST_MS = [
  ["look", 0],
  ["ready", 60_000],
  ["late", 180_000],
];

/** After a leap of the clock, this long is given to the server to say which instant it is. */
const LONGEST_ASKING_MS = 3_000;

/**
 * @param {Item} item as `Studio.waits` gives it
 * @returns {{phase: RingPhase, at: number}[]} when it rings, in order
 */
export function ringsOf(item) {
  if (item.what === "guide") {
    /** @type {{phase: RingPhase, at: number}[]} */
    const rests = item.rests_at === undefined ? [] : [{ phase: "look", at: item.rests_at }];
    return [...rests, ...BURST_MS.map(([phase, after]) => ({ phase, at: item.until + after }))];
  }
  /** @type {{phase: RingPhase, at: number}[]} */
  const due =
    item.what === "window"
      ? [{ phase: "late", at: warnAt(item.opened_at, item.latest_at) }]
      : rings(item).map(({ kind, at }) => ({ phase: kind, at }));
  // A wait that was given more time than its latest is over when that has run out, and never before.
  const over = Math.max(item.latest_at ?? 0, ...due.map(({ at }) => at));
  if (item.latest_at !== null) for (const after of PAST_MS) due.push({ phase: "over", at: over + after });
  return due;
}

/**
 * The next instant after `at` at which an item rings or enters another phase; Infinity when none.
 * @param {Item} item @param {number} at
 */
export function nextTurn(item, at) {
  const turns = ringsOf(item).map((ring) => ring.at);
  if (item.what === "wait") turns.push(item.usual_at);
  if (item.what !== "guide" && item.latest_at !== null) turns.push(item.latest_at);
  return Math.min(...turns.filter((turn) => turn > at));
}

/** @typedef {Due & {together: Due[]}} Ringing what rings now, and all that rings with it */

export class Rings extends /** @type {HearsClass<{ring: Ringing, ahead: Coming[]}>} */ (EventTarget) {
  #clock;
  #items;
  #book;
  #ask;
  #follows;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #timer;

  /**
   * items: every wait, window and guide of the open runs. ask: hear the server, because the clock made a leap and may
   * be wrong. follows: whether another tab of this phone has the first word.
   * @param {{book: Book, clock: Clock, items: () => Item[], ask: () => Promise<void>, follows?: () => boolean}} given
   */
  constructor({ book, clock, items, ask, follows = () => false }) {
    super();
    this.#book = book;
    this.#clock = clock;
    this.#items = items;
    this.#ask = ask;
    this.#follows = follows;
  }

  /** Ring what is due, and set the timer for what comes next. Call it when anything changed. */
  async check() {
    this.#clock.now(); // notices a leap
    if (this.#clock.doubtful) await Promise.race([this.#ask(), nap(LONGEST_ASKING_MS)]);
    const now = this.#clock.now();
    const rung = new Map(this.#book.meta.get("rung"));
    /** @type {Due[]} */
    const due = [];
    /** @type {Coming[]} */
    const ahead = [];
    let next = now + LONGEST_NAP_MS;
    for (const item of this.#items()) {
      const all = ringsOf(item);
      const coming = all.find(({ at }) => at > now);
      const last = all.findLast(({ at }) => at <= now);
      if (coming) next = Math.min(next, coming.at);
      for (const ring of all)
        if (ring.at > now && ring.at <= now + AHEAD_MS)
          ahead.push({ key: keyOf(item, ring), phase: ring.phase, at: ring.at });
      // Of what fell due while the page slept only the last is rung: the others are overtaken.
      if (last && !rung.has(keyOf(item, last))) {
        due.push({ key: keyOf(item, last), wait: item, phase: last.phase, at: last.at });
      }
    }
    clearTimeout(this.#timer);
    const follows = this.#follows();
    this.#timer = setTimeout(() => this.check(), next - now + (follows ? FOLLOW_MS : 0));
    this.dispatchEvent(new CustomEvent("ahead", { detail: follows ? [] : ahead }));
    if (due.length === 0) return;
    const together = await this.#claim(due, now);
    for (const ring of together)
      this.dispatchEvent(new CustomEvent("ring", { detail: { ...ring, together } }));
  }

  /** What fell due after `since`, most recent first; what is over by now is not listed. @param {number} since */
  missed(since) {
    const now = this.#clock.now();
    return this.#items()
      .flatMap((item) => {
        const last = ringsOf(item).findLast(({ at }) => at > since && at <= now);
        return last ? [{ wait: item, phase: last.phase, at: last.at }] : [];
      })
      .sort((a, b) => b.at - a.at);
  }

  stop() {
    clearTimeout(this.#timer);
  }

  /** Of what is due, what no other tab of this phone has rung. @param {Due[]} due @param {number} now */
  async #claim(due, now) {
    let mine = due;
    /** @param {[string, number][] | undefined} kept */
    const claim = (kept) => {
      const rung = new Map((kept ?? []).filter(([, at]) => at > now - FORGET_MS));
      mine = due.filter(({ key }) => !rung.has(key));
      for (const { key, at } of mine) rung.set(key, at);
      return [...rung];
    };
    try {
      await this.#book.revise("rung", claim);
    } catch {
      // A full disk cannot remember it: ring, and perhaps once more after a reload.
      this.#book.meta.set("rung", claim(this.#book.meta.get("rung")));
    }
    return mine;
  }
}

/** @param {number} ms @returns {Promise<void>} */
function nap(ms) {
  return new Promise((resolve) => setTimeout(resolve, ms));
}

/** @param {Item} item @param {{phase: RingPhase, at: number}} ring */
function keyOf({ run, step, what }, { phase, at }) {
  return [run, step, what, phase, at].join("/");
}
