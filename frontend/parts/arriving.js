// A part of a screen that comes with a connection. Until it is here its place says what it waits for.
//
//   const settings = new Arriving(place, async () => (await import("…")).settingsForm().node);
//   settings.look(isOnline);    // at each drawing; once it is here it stays, connection or not

import { h } from "./dom.js";
import { say } from "../words.js";

export class Arriving {
  #place;
  #come;
  #isComing = false;

  /** @param {Element} place @param {() => Promise<Element>} come its error has `says` */
  constructor(place, come) {
    this.#place = place;
    this.#come = come;
  }

  /** @param {boolean} isOnline */
  look(isOnline) {
    if (this.#isComing) return;
    if (!isOnline) {
      this.#tell(say("page-app-desk-away"));
      return;
    }
    this.#isComing = true;
    this.#come().then(
      (node) => this.#place.replaceChildren(node),
      ({ says }) => {
        this.#isComing = false;
        this.#tell(says);
      },
    );
  }

  /** @param {string} says */
  #tell(says) {
    this.#place.replaceChildren(h("p", { class: "soft", role: "status" }, says));
  }
}
