/**
 * Batches that lie on the server and not on this phone: found by words or number, and opened. Fetched
 * when first needed. What is opened is held in memory for a while and never put on the phone's disk, which
 * only grows by what is done here; a batch in which something is entered is taken in first.
 *
 *   const archive = await studio.archive();
 *   const { runs, total } = await archive.find("salt 261129");   // Unreachable or Refused, with `says`
 *   await archive.fetch(id);
 *   archive.run(id);                                              // a Run, or undefined
 */

import { Run } from "./run.js";
/** @import { BatchVerdict, Size } from "../../bench/shapes/page" */
/** @import { Book } from "./book.js" */
/** @import { Server } from "./server.js" */

const HELD = 12;
const HELD_MS = 15 * 60_000;
const PAGE = 500;
const FOUND = 30;

/** @typedef {{id: string, title: string, number: string | null, finished_at: number | null,
 *   release: BatchVerdict | null, size: Size}} Found */

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

  /** @param {string} words @returns {Promise<{runs: Found[], total: number}>} the newest first */
  async find(words) {
    return this.#list(`open=false&q=${encodeURIComponent(words)}&page_size=${FOUND}`);
  }

  /** Every batch with this number, letter for letter. @param {string} number */
  async numbered(number) {
    return (await this.#list(`number=${encodeURIComponent(number)}`)).runs;
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

  /** @param {string} query @returns {Promise<{runs: Found[], total: number}>} */
  async #list(query) {
    const { body } = await this.#server.get(`/runs?${query}`);
    const runs = body.runs.map(({ id, recipe, number, finished_at, release, size }) => ({
      id,
      title: recipe.title,
      number,
      finished_at,
      release,
      size,
    }));
    return { runs, total: body.total };
  }
}
