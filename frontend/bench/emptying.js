/**
 * Whether all that is in use can still be emptied: no batch waits for a bowl of another that waits for its jug.
 * The same as bench/planning/emptying.py, which says how it goes.
 */

/** @import { Day } from "./layout.js" */

const MOST_TRIED = 200; // ways on; what needs more counts as stuck

/** @typedef {ReadonlySet<number>} Done by the numbers of the tasks */

/**
 * Whether every bowl, jug and mould in use can be emptied in some order, once `first` too has been done.
 * @param {Day} day @param {number | null} [first]
 */
export function canEmpty(day, first = null) {
  /** @type {Done | null} */
  let done = new Set([...day.tasks.keys()].filter((index) => day.end[index] !== null || index === first));
  for (let held = heldOf(day, done); held.length; held = heldOf(day, done)) {
    const before = done;
    const runs = [...new Set(held.map(({ fill }) => day.tasks[fill].run))].sort();
    const own = runs.map((run) => day.open.filter((index) => day.tasks[index].run === run));
    done = null;
    for (const each of [...own, day.open]) done ??= new Going(day, each).on(before);
    if (done === null) return false;
  }
  return true;
}

/** @param {Day} day @param {Done} done */
const heldOf = ({ holds, full }, done) =>
  holds.filter(({ fill, empty }) => !done.has(empty) && (done.has(fill) || full.has(fill)));

/** @param {Day} day @param {Done} done */
function freeOf(day, done) {
  const free = new Map(Object.entries(day.problem.equipment).map(([key, { many }]) => [key, many]));
  for (const { key, many } of heldOf(day, done)) free.set(key, (free.get(key) ?? 0) - many);
  return free;
}

/** One batch going on by itself, or all of them. */
class Going {
  #day;
  #own;
  #fills;
  /** @type {Set<string>} */
  #tried = new Set();

  /** @param {Day} day @param {number[]} own */
  constructor(day, own) {
    this.#day = day;
    this.#own = own;
    this.#fills = new Set(day.holds.map(({ fill }) => fill));
  }

  /**
   * What is done once less of something is held, and more of nothing; null when it cannot come so far.
   * @param {Done} done
   */
  on(done) {
    return this.#goesOn(done, freeOf(this.#day, done));
  }

  /**
   * Do all that takes nothing up; then try each step that what is in use waits for.
   * @param {Done} begun @param {Map<string, number>} before @returns {Done | null}
   */
  #goesOn(begun, before) {
    const done = this.#withTheRest(begun);
    const free = freeOf(this.#day, done);
    const more = [...before].map(([key, many]) => (free.get(key) ?? 0) - many);
    if (more.some((each) => each > 0) && more.every((each) => each >= 0)) return done;
    const key = this.#own.filter((index) => done.has(index)).join();
    if (this.#tried.has(key) || this.#tried.size >= MOST_TRIED) return null;
    this.#tried.add(key);
    const awaited = this.#awaited(done);
    for (const index of this.#own) {
      if (!awaited.has(index) || !this.#isReady(index, done) || !this.#fits(index, done)) continue;
      const further = this.#goesOn(new Set([...done, index]), before);
      if (further) return further;
    }
    return null;
  }

  /** @param {Done} begun */
  #withTheRest(begun) {
    const done = new Set(begun);
    for (let going = true; going; ) {
      const ready = this.#own.filter((index) => !this.#fills.has(index) && this.#isReady(index, done));
      for (const index of ready) done.add(index);
      going = ready.length > 0;
    }
    return done;
  }

  /** @param {number} index @param {Done} done */
  #isReady(index, done) {
    return !done.has(index) && this.#day.needs[index].every(([need]) => done.has(need));
  }

  /** @param {number} index @param {Done} done */
  #fits(index, done) {
    const left = freeOf(this.#day, new Set([...done, index]));
    return this.#day.holds.every(({ fill, key }) => fill !== index || (left.get(key) ?? 0) >= 0);
  }

  /** All that must come before what is in use is empty. @param {Done} done */
  #awaited(done) {
    /** @type {Set<number>} */
    const awaited = new Set();
    const stack = heldOf(this.#day, done).map(({ empty }) => empty);
    for (let index = stack.pop(); index !== undefined; index = stack.pop()) {
      if (awaited.has(index) || done.has(index)) continue;
      awaited.add(index);
      stack.push(...this.#day.needs[index].map(([need]) => need));
    }
    return awaited;
  }
}
