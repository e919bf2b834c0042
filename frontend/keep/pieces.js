/**
 * Finished pieces: the batches that some are in stock of, and the outlets by name, as the server last told them. What
 * happens to pieces is entered in the shelf's journal, with no network too; where they went, and whom to ask, the
 * server says.
 *
 *   studio.pieces.seen                  // {batches, outlets}; null: never seen here
 *   await studio.pieces.look();         // Unreachable
 *   await studio.pieces.recall("lots/L", true);
 */

import { goingOn } from "./server.js";
/** @import { Alike, Complaint, Outlet, PiecesWhole, Recall } from "../../bench/shapes/page" */
/** @import { PiecesSeen } from "../../types/keep" */
/** @import { Book } from "./book.js" */
/** @import { Server } from "./server.js" */

export class Pieces {
  #book;
  #server;
  #heard;

  /** @param {{book: Book, server: Server, heard: () => void}} given heard: what is seen is another */
  constructor({ book, server, heard }) {
    this.#book = book;
    this.#server = server;
    this.#heard = heard;
  }

  /** @returns {PiecesSeen | null} */
  get seen() {
    return this.#book.meta.get("pieces") ?? null;
  }

  /** Read them anew. How to reach an outlet stays with the server. @throws {Unreachable} */
  async look() {
    const [batches, { body }] = await Promise.all([this.#server.all("pieces"), this.#server.get("/outlets")]);
    const outlets = body.outlets.map(({ id, name }) => ({ id, name }));
    await this.#book.commit({ meta: { put: [{ key: "pieces", value: { batches, outlets } }] } });
    this.#heard();
  }

  /** @returns {Promise<readonly Outlet[]>} with how to reach them */
  async outlets() {
    return (await this.#server.get("/outlets")).body.outlets;
  }

  /** @param {string} run @returns {Promise<PiecesWhole>} */
  async where(run) {
    return (await this.#server.get(`/pieces/${run}`)).body;
  }

  /**
   * @param {string} of "lots/L" or "runs/R" @param {boolean} rehearsal @param {string | null} after
   * @returns {Promise<Recall>}
   */
  async recall(of, rehearsal, after) {
    return (await this.#server.get(`/${of}/recall?rehearsal=${rehearsal}${goingOn(after)}`)).body;
  }

  /** @returns {Promise<readonly Complaint[]>} */
  async complaints() {
    return (await this.#server.get("/complaints")).body.complaints;
  }

  /** What a complaint leads to. @param {string} id @returns {Promise<Alike>} */
  async alike(id) {
    return (await this.#server.get(`/complaints/${id}`)).body;
  }

  /** @param {string} id @param {{name: string, contact: string | null}} said @throws {Unreachable | Refused} */
  async name(id, said) {
    await this.#server.ask("PUT", `/outlets/${id}`, said);
    await this.look();
  }

  /**
   * @param {string} id @returns {Promise<readonly string[]>} copies that still name it
   * @throws {Unreachable | Refused}
   */
  async erase(id) {
    const { body } = await this.#server.ask("DELETE", `/outlets/${id}`);
    await this.look();
    return body.copies;
  }
}
