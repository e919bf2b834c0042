/**
 * The live line: the server says when something moved, so that this phone asks at once.
 *
 * A line is a help, never a need: while there is none the phone asks by itself, every few seconds.
 * Only a page in sight holds one, since a browser opens few connections to one server.
 *
 *   live.addEventListener("moved", () => sync.soon());
 *   live.want(true);   // after every good round; opens a line if there is none and it is not too soon
 */

const FIRST_WAIT_MS = 1_000;
const LONGEST_WAIT_MS = 120_000;

export class Live extends EventTarget {
  /** @type {EventSource | null} */
  #source = null;
  #failures = 0;
  #notBefore = -Infinity;

  /** The line stands: what moves is heard of at once. */
  on = false;

  /** @param {boolean} wanted */
  want(wanted) {
    if (!wanted) this.#hangUp();
    else if (!this.#source && performance.now() >= this.#notBefore) this.#open();
  }

  #open() {
    this.#source = new EventSource("/api/v1/live");
    this.#source.addEventListener("moved", () => {
      this.on = true;
      this.#failures = 0;
      this.dispatchEvent(new Event("moved"));
    });
    // The browser would try again by itself, but without mercy and without end.
    this.#source.addEventListener("error", () => {
      this.#hangUp();
      const wait = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** this.#failures);
      this.#notBefore = performance.now() + wait * (0.5 + Math.random() / 2);
      this.#failures += 1;
    });
  }

  #hangUp() {
    this.#source?.close();
    this.#source = null;
    this.on = false;
  }
}
