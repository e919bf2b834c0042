/**
 * Batches that lie on the server and not on this phone: found by words or number, and opened. Fetched
 * when first needed. What is opened is held in memory for a while and never put on the phone's disk, which
 * only grows by what is done here; a batch in which something is entered is taken in first.
 *
 *   const archive = await studio.archive();
 *   const { groups } = await archive.find({ words: "salt 261129" });   // Unreachable or Refused, with `says`
 *   await archive.fetch(id);
 *   archive.run(id);                                              // a Run, or undefined
 */

import { Run } from "./run.js";
/** @import { FoundPage } from "../../types/answers" */
/** @import { FindAsked } from "../parts/find-all.js" */
/** @import { Book } from "./book.js" */
/** @import { Server } from "./server.js" */

const HELD = 12;
const HELD_MS = 15 * 60_000;
const PAGE = 500;

export class Archive {
  #book;
  #server;
  /** @type {Map<string, {run: Run, at: number}>} */
  #runs = new Map(); // the one opened last at the end

  /** @param {Book} book @param {Server} server */
  constructor(book, server) {
    this.#book = book;
    this.#server = server;
  }

  /** A batch that was looked at a while ago at most; undefined when it must be fetched. @param {string} id */
  run(id) {
    const held = this.#runs.get(id);
    const now = performance.now();
    if (held && now - held.at < HELD_MS) {
      held.at = now;
      return held.run;
    }
    this.#runs.delete(id);
    return undefined;
  }

  /** A page of what the server finds. @param {FindAsked} asked @returns {Promise<FoundPage>} */
  async find({ words, kind, page = 1 }) {
    const only = kind ? `&kind=${kind}` : "";
    return (await this.#server.get(`/search?q=${encodeURIComponent(words)}${only}&page=${page}`)).body;
  }

  /** Every batch with this number, letter for letter. @param {string} number */
  async numbered(number) {
    const { body } = await this.#server.get(`/runs?number=${encodeURIComponent(number)}`);
    return body.runs.map(({ id, recipe, finished_at, release }) => ({
      id,
      title: recipe.title,
      finished_at,
      release,
    }));
  }

  /**
   * Open a batch with its whole journal.
   * @param {string} id @throws {Refused} status 404 when there is no such batch
   */
  async fetch(id) {
    const { body } = await this.#server.get(`/runs/${encodeURIComponent(id)}`);
    const run = new Run(body);
    for (let after = "", more = true; more; ) {
      const { body: page } = await this.#server.get(`/runs/${body.id}/entries?limit=${PAGE}${after}`);
      for (const entry of page.entries) run.put(entry);
      after = `&after=${page.cursor}`;
      more = page.more;
    }
    this.#runs.delete(id);
    this.#runs.set(id, { run, at: performance.now() });
    for (const oldest of [...this.#runs.keys()].slice(0, -HELD)) this.#runs.delete(oldest);
  }

  /** Put a batch that is open here on the phone's disk, so that something can be entered in it. @param {string} id */
  async takeIn(id) {
    const run = this.run(id);
    if (!run || this.#book.runs.has(id)) return;
    // It was not read in the course of a round: that is made good, in case the studio was put back meanwhile.
    const held = run.entries.map((entry) => ({ id: entry.id, run: id, held: true }));
    await this.#book.commit(
      { runs: { put: [run.row] }, entries: { put: run.entries }, outbox: { put: held } },
      { strict: true },
    );
    this.#runs.delete(id);
  }
}
