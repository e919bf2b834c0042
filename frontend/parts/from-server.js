// What a screen shows that only the server has: asked for as it opens, as the connection comes back, and by hand. What
// is here is not asked for again, and what did not come is not asked for at each drawing.
//
//   #server = new FromServer(() => this.#ask());    its button by hand: #server.again
//   #server.draw(isOnline)     at each drawing       #server.anew()    something else is to be shown
//   #server.ended(isHere)      an answer came, or it came to nothing

import { h, show } from "./dom.js";
import { say } from "../words.js";

export class FromServer {
  /** @type {boolean | null} */
  #isOnline = null; // not drawn yet: what is believed of the connection then may be old, and one try costs little
  #isAsking = false;
  #isBack = false; // the connection came while an answer was awaited
  #ask;
  isHere = false;
  again = h(
    "button",
    { type: "button", class: "outlined no-print", hidden: true, onclick: () => this.anew() },
    say("page-common-again"),
  );

  /** @param {() => void} ask */
  constructor(ask) {
    this.#ask = ask;
  }

  /** @param {boolean} isOnline */
  draw(isOnline) {
    const came = isOnline && this.#isOnline === false;
    const isFirst = this.#isOnline === null;
    this.#isOnline = isOnline;
    if (came && this.#isAsking) this.#isBack = true;
    else if (isFirst || (came && !this.isHere)) this.anew();
  }

  anew() {
    [this.isHere, this.#isAsking, this.#isBack] = [false, true, false];
    show(this.again, false);
    this.#ask();
  }

  /** @param {boolean} isHere */
  ended(isHere) {
    const isBack = this.#isBack;
    [this.#isAsking, this.#isBack] = [false, false];
    this.isHere ||= isHere;
    show(this.again, !this.isHere);
    if (isBack && !this.isHere) this.anew();
  }
}
