/**
 * Touches as commands. A touch is accepted when it is given here, and then it is done: after those before it in its
 * line, with the target that it had when it was touched, wherever the maker is by then. What goes to the disk is one
 * line; what goes to the server has lines of its own, so that a slow answer holds nothing up at the bench.
 *
 *   const touches = new Touches();
 * touches.give(DISK, act, ended, once) // ended(error, made) once it is done; false: this `once` is on its way
 * already
 *   touches.isGiven(once)
 *   await touches.rest()                   // nothing is on its way any more
 */

/** @template T @typedef {(error: unknown, made: T | null) => void} Ended what is called once a touch is done */

export const DISK = "disk";

export class Touches {
  /** @type {Map<string, Promise<void>>} */
  #ends = new Map();
  /** @type {Set<string | null>} */
  #given = new Set();

  /**
   * @template T
   * @param {string} line @param {() => T | Promise<T>} act @param {Ended<T>} ended
   * @param {string | null} [once] what must not be done twice: two touches on one answer are one
   */
  give(line, act, ended, once = null) {
    if (this.#given.has(once)) return false;
    if (once !== null) this.#given.add(once);
    const mine = this.#do(this.#ends.get(line), act, ended, once);
    this.#ends.set(line, mine.catch(reportError)); // what ended throws is a fault of the page's, and holds nobody
    return true;
  }

  /** @param {string | null} once */
  isGiven(once) {
    return this.#given.has(once);
  }

  async rest() {
    await Promise.all(this.#ends.values());
  }

  /**
   * @template T
   * @param {Promise<void> | undefined} before @param {() => T | Promise<T>} act @param {Ended<T>} ended
   * @param {string | null} once
   */
  async #do(before, act, ended, once) {
    await before;
    /** @type {unknown} */
    let error = null;
    /** @type {T | null} */
    let made = null;
    try {
      made = await act();
    } catch (caught) {
      error = caught;
    }
    this.#given.delete(once);
    ended(error, made);
  }
}
