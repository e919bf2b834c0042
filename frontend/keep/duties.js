/**
 * What makers said of the duties of selling, as the server last told it. To say something needs the server; what was
 * seen stays on this phone.
 *
 *   studio.duties.marks                          // null: never seen here
 *   await studio.duties.look();
 *   await studio.duties.say({ about, duty, state, day, note });
 */

/** @import { DutyMark, DutySaid } from "../../bench/shapes/page" */
/** @import { Book } from "./book.js" */
/** @import { Server } from "./server.js" */

export class Duties {
  #book;
  #server;
  #newId;

  /** @param {{book: Book, server: Server, newId: () => string}} given */
  constructor({ book, server, newId }) {
    this.#book = book;
    this.#server = server;
    this.#newId = newId;
  }

  /** What holds of each duty, as last seen. @returns {readonly DutyMark[] | null} */
  get marks() {
    return this.#book.meta.get("duties")?.marks ?? null;
  }

  /** Read them anew. @throws {Unreachable} */
  async look() {
    const { body, etag } = await this.#server.get("/duties");
    if (etag !== this.#book.meta.get("duties")?.etag) await this.#keep(body.marks, etag);
  }

  /** @param {DutySaid} said @throws {Unreachable|Refused} with `says` */
  async say(said) {
    const { body } = await this.#server.ask("PUT", `/duties/${this.#newId()}`, said);
    const others = (this.marks ?? []).filter(({ about, duty }) => about !== body.about || duty !== body.duty);
    await this.#keep([...others, body], null);
  }

  /** @param {readonly DutyMark[]} marks @param {string | null} etag */
  #keep(marks, etag) {
    return this.#book.commit({ meta: { put: [{ key: "duties", value: { marks, etag } }] } });
  }
}
