/**
 * What the page does about a batch that is not on this phone: asks the server for it, once for each time that
 * its address is opened or the server comes back, and says how that goes. Fetched when first needed; beside
 * app.js it is the one module that knows both the studio and the document.
 *
 *   const seeker = new Seeker(studio, draw);
 *   seeker.seek(route);              // then draw: seeker.run(id) is there, or seeker.words(route) says why not
 */

import { saysOf } from "./bench/errors.js";
import { Refused, saysStatus } from "./keep/server.js";
import { batchRow } from "./parts/batch-row.js";
import { h } from "./parts/dom.js";
import { say } from "./words.js";
/** @import { BatchVerdict } from "../bench/shapes/page" */
/** @import { FindAsked } from "./parts/find-all.js" */
/** @import { Archive } from "./keep/archive.js" */
/** @import { Studio } from "./keep/studio.js" */

/**
 * @typedef {{id: string, title: string, finished_at: number | null, release?: BatchVerdict | null}} Batch
 * @typedef {{address: string, isWaiting?: boolean, wasOffline?: boolean, isAway?: boolean, isGone?: boolean,
 *   says?: string, runs?: Batch[]}} Sought
 */

export class Seeker {
  #studio;
  #draw;
  /** @type {Archive | null} */
  #archive = null;
  /** @type {Sought} */
  #sought = { address: "" };

  /** @param {Studio} studio @param {() => void} draw */
  constructor(studio, draw) {
    this.#studio = studio;
    this.#draw = draw;
  }

  /** @param {string} id */
  run(id) {
    return this.#archive?.run(id);
  }

  /** Put the batch on this phone's disk, so that something can be entered in it. @param {string} id */
  async hold(id) {
    await this.#archive?.takeIn(id);
  }

  /** What the server has for these words, or why that is not known. @param {FindAsked} asked */
  async find(asked) {
    try {
      this.#archive ??= await this.#studio.archive();
      return await this.#archive.find(asked);
    } catch (error) {
      const says = saysOf(error);
      if (!says) throw error;
      return { says: error instanceof Refused ? says : say("page-find-here") };
    }
  }

  /** @param {{name: string, id: string}} route */
  async seek({ name, id }) {
    const address = location.hash;
    if (this.#sought.address === address) {
      this.#sought.wasOffline ||= this.#studio.link.state === "offline";
      if (!this.#sought.isAway || !this.#sought.wasOffline || this.#studio.link.state !== "online") return;
    }
    this.#sought = { address, isWaiting: true };
    this.#draw();
    /** @type {Sought} */
    const told = { address };
    try {
      this.#archive ??= await this.#studio.archive();
      if (name === "batch") await this.#seekNumber(id, told, this.#archive);
      else await this.#archive.fetch(id);
    } catch (error) {
      const says = saysOf(error);
      if (!says) throw error;
      told.isAway = !(error instanceof Refused);
      told.isGone = saysStatus(error, 404);
      told.says = told.isGone ? say("page-seek-none") : told.isAway ? say("page-seek-away") : says;
    }
    if (location.hash !== address) return;
    this.#sought = told;
    this.#draw();
  }

  /**
   * The batch of a number: one leads on to its record, several are listed.
   * @param {string} number @param {Sought} told @param {Archive} archive
   */
  async #seekNumber(number, told, archive) {
    const here = this.#studio.runs
      .filter(({ told }) => told.number === number)
      .map(({ id, told: { title, finished_at, release } }) => ({ id, title, finished_at, release }));
    const there = await archive.numbered(number).catch((error) => {
      if (saysOf(error) && here.length > 0) return [];
      throw error;
    });
    const found = [...here, ...there.filter(({ id }) => here.every((each) => each.id !== id))];
    if (found.length === 1) location.replace(`#/record/${found[0].id}`);
    else if (found.length > 1) told.runs = found;
    else Object.assign(told, { isGone: true, says: say("page-seek-no-number", { number }) });
  }

  /** What became of looking for it; null before it was looked for. */
  words() {
    const { address, isWaiting, isGone, says, runs } = this.#sought;
    if (address !== location.hash) return null;
    if (runs) {
      const links = runs.map((run) => batchRow(run));
      return [
        h("h1", {}, say("page-seek-several", { count: runs.length })),
        h("ul", { class: "rows" }, links),
      ];
    }
    const again = () => {
      this.#sought = { address: "" };
      this.#draw();
    };
    return [
      h("h1", {}, say("page-seek-title")),
      h("p", { role: "status" }, isWaiting ? say("page-common-asking") : says),
      isWaiting || isGone
        ? null
        : h("button", { type: "button", class: "copper", onclick: again }, say("page-common-again")),
    ];
  }
}
