/**
 * What the server alone works out (a label, what a batch cost, the last times, the duties of selling), as it was last
 * seen here, in the language and the units in which it was, with the time. So it is there without a connection too.
 *
 *   const { body, at } = await seen.ask(`/runs/${id}/cost`, { run: id });   // and kept under that name
 *   const last = await seen.kept(`/runs/${id}/cost`);                       // undefined: never seen here
 *
 * What a maker typed that the server has no place for is kept beside it (`typed`, `type`).
 */

import { saysStatus, Unreachable } from "./server.js";
import { say, spoken, units } from "../words.js";
/** @import { SeenAt, SeenRow, Typed } from "../../types/keep" */
/** @import { Book } from "./book.js" */
/** @import { Server } from "./server.js" */

export class Seen {
  #book;
  #server;
  #now;
  #away;

  /** @param {{book: Book, server: Server, now: () => number, away: () => void}} given away: it did not answer */
  constructor({ book, server, now, away }) {
    this.#book = book;
    this.#server = server;
    this.#now = now;
    this.#away = away;
  }

  /**
   * As last seen here.
   * @template {string} P @param {P} path @param {string} [name] @returns {Promise<SeenAt<P> | undefined>}
   */
  async kept(path, name = path) {
    return /** @type {SeenAt<P> | undefined} */ (await this.#book.seen(keyOf(name)));
  }

  /**
   * As the server says it now. What it has no more, or not for this device, is seen no more.
   * @template {string} P @param {P} path @param {{run?: string, name?: string}} [of] run: the batch it is of
   * @returns {Promise<SeenAt<P>>} @throws {Unreachable | Refused}
   */
  async ask(path, { run = "", name = path } = {}) {
    const isUnsent = this.#book.runs
      .get(run)
      ?.waiting()
      .some(({ id }) => id === run);
    if (isUnsent) throw new Unreachable("unsent", say("page-seen-unsent"));
    const id = keyOf(name);
    try {
      const { body } = await this.#server.get(path);
      const row = { id, at: this.#now(), body };
      await this.#put(row);
      return row;
    } catch (error) {
      if (saysStatus(error, 403, 404, 409)) await this.#book.commit({ seen: { delete: [id] } });
      if (error instanceof Unreachable) this.#away();
      if (error instanceof Unreachable && error.constructor === Unreachable)
        error.says = say("page-seen-never");
      throw error;
    }
  }

  /** @param {string} name @returns {Promise<Typed>} what was typed there, by field; {} for nothing */
  async typed(name) {
    return /** @type {Typed} */ ((await this.#book.seen(`typed ${name}`))?.body ?? {});
  }

  /** @param {string} name @param {Typed} body */
  type(name, body) {
    return this.#put({ id: `typed ${name}`, at: this.#now(), body });
  }

  /** @param {SeenRow} row */
  #put(row) {
    return this.#book.commit({ seen: { put: [row] } });
  }
}

/** @param {string} name */
function keyOf(name) {
  const { mass, warmth } = units();
  return `${spoken()} ${mass} ${warmth} ${name}`;
}
