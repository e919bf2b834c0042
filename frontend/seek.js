/**
 * What the page does about a batch that is not on this phone: asks the server for it, once for each time that
 * its address is opened or the server comes back, and says how that goes. Fetched when first needed; beside
 * app.js it is the one module that knows both the studio and the document.
 *
 *   const seeker = new Seeker(studio, draw);
 *   seeker.seek(route);              // then draw: seeker.run(id) is there, or seeker.words(route) says why not
 */

import { h } from "./parts/dom.js";
import { day } from "./parts/words.js";

const AWAY = "No connection. This batch opens when the server answers; everything on this phone works.";

export class Seeker {
  #studio;
  #draw;
  #archive = null;
  #sought = { address: "" };

  constructor(studio, draw) {
    this.#studio = studio;
    this.#draw = draw;
  }

  run(id) {
    return this.#archive?.run(id);
  }

  /** Put the batch on this phone's disk, so that something can be entered in it. */
  async hold(id) {
    await this.#archive?.takeIn(id);
  }

  /** @returns {Promise<{runs, total, says?: string}>} what the server has for these words */
  async find(words) {
    try {
      this.#archive ??= await this.#studio.archive();
      return await this.#archive.find(words);
    } catch (error) {
      if (!error.says) throw error;
      return {
        runs: [],
        total: 0,
        says: error.status ? error.says : "No connection. Batches on this phone only.",
      };
    }
  }

  async seek({ name, id }) {
    const address = location.hash;
    if (this.#sought.address === address) {
      this.#sought.wasOffline ||= this.#studio.link.state === "offline";
      if (!this.#sought.isAway || !this.#sought.wasOffline || this.#studio.link.state !== "online") return;
    }
    this.#sought = { address, isWaiting: true };
    this.#draw();
    const told = { address };
    try {
      this.#archive ??= await this.#studio.archive();
      if (name === "batch") await this.#seekNumber(id, told);
      else await this.#archive.fetch(id);
    } catch (error) {
      if (!error.says) throw error;
      told.isAway = !error.status;
      told.isGone = error.status === 404;
      told.says = told.isGone ? "The studio has no such batch." : error.status ? error.says : AWAY;
    }
    if (location.hash !== address) return;
    this.#sought = told;
    this.#draw();
  }

  /** The batch of a number: one leads on to its record, several are listed. */
  async #seekNumber(number, told) {
    const here = this.#studio.runs
      .filter(({ told }) => told.number === number)
      .map(({ id, told: { title, finished_at } }) => ({ id, title, finished_at }));
    const there = await this.#archive.numbered(number).catch((error) => {
      if (error.says && here.length > 0) return [];
      throw error;
    });
    const found = [...here, ...there.filter(({ id }) => here.every((each) => each.id !== id))];
    if (found.length === 1) location.replace(`#/record/${found[0].id}`);
    else if (found.length > 1) told.runs = found;
    else Object.assign(told, { isGone: true, says: `No batch has the number ${number}.` });
  }

  /** What became of looking for it; null before it was looked for. */
  words() {
    const { address, isWaiting, isGone, says, runs } = this.#sought;
    if (address !== location.hash) return null;
    if (runs) {
      const links = runs.map(({ id, title, finished_at }) =>
        h(
          "li",
          {},
          h(
            "a",
            { class: "row", href: `#/record/${id}` },
            h(
              "span",
              { class: "row-words" },
              h("b", { class: "row-title" }, title),
              h(
                "span",
                { class: "soft small" },
                finished_at ? `finished ${day(finished_at)}` : "not finished",
              ),
            ),
          ),
        ),
      );
      return [h("h1", {}, `${runs.length} batches have this number`), h("ul", { class: "rows" }, links)];
    }
    const again = () => {
      this.#sought = { address: "" };
      this.#draw();
    };
    return [
      h("h1", {}, "This batch is not on this phone"),
      h("p", { role: "status" }, isWaiting ? "Asking the server\u2026" : says),
      isWaiting || isGone
        ? null
        : h("button", { type: "button", class: "copper", onclick: again }, "Try again"),
    ];
  }
}
