// The bench with a batch for practice on it: the same screen, the same answers, and nothing that stays.
//
//   screen.data = { practice, now }        // practice: see keep/practice.js
//   "practice-rang" { phase }              // something that counts is due

import { define, given, tell } from "../parts/dom.js";
import { say } from "../words.js";
/** @import { Item, Link } from "../../types/keep" */
/** @import { Told } from "../../types/told" */
/** @import { Practice } from "../keep/practice.js" */

/** @type {{readonly [phase: string]: "look" | "ready" | "late" | undefined}} */
const RINGS = { look: "look", ready: "ready", soon_late: "late" };
/** @type {Pick<Link, "state" | "unsent" | "refused" | "shut">} */
const NO_LINK = { state: "online", unsent: 0, refused: [], shut: null };

export class PracticeScreen extends HTMLElement {
  #bench = document.createElement("bench-screen");
  /** @type {{practice: Practice, now: () => number}} */
  #data = given();
  /** @type {Map<string, string>} */
  #phases = new Map();

  connectedCallback() {
    if (this.#bench.isConnected) return;
    this.append(this.#bench);
    this.#hear("answer", ({ kind, body, says }) => {
      this.#data.practice.enter(kind, body);
      this.#bench.trouble("");
      if (says) this.#bench.said(says);
      this.#draw();
    });
    this.#hear("answers", ({ entries }) => {
      for (const { kind, body } of entries) this.#data.practice.enter(kind, body);
      this.#bench.trouble("");
      this.#draw();
    });
    this.#hear("wait-turned", () => this.#draw());
    this.#hear("practice-again", () => {
      this.#data.practice.again();
      this.#draw();
    });
  }

  /** @param {{practice: Practice, now: () => number}} data */
  set data(data) {
    this.#data = data;
    this.#draw();
  }

  get spoken() {
    return this.#bench.spoken;
  }

  /** @param {string} text */
  trouble(text) {
    this.#bench.trouble(text);
  }

  /** @param {string} text */
  said(text) {
    this.#bench.said(text);
  }

  /**
   * What the bench tells stays here: the page would keep it.
   * @template {keyof Told & keyof HTMLElementEventMap} K @param {K} name @param {(detail: Told[K]) => void} act
   */
  #hear(name, act) {
    this.#bench.addEventListener(name, (event) => {
      event.stopPropagation();
      act(/** @type {CustomEvent<Told[K]>} */ (/** @type {Event} */ (event)).detail);
    });
  }

  #draw() {
    const { practice, now } = this.#data;
    const { run, bench, undoing } = practice;
    const own = { run: run.id, run_name: "" };
    /** @type {Item[]} */
    const waits = [
      ...bench.waits.map((item) => ({ ...item, ...own, what: /** @type {const} */ ("wait") })),
      ...bench.windows.map((item) => ({ ...item, ...own, what: /** @type {const} */ ("window") })),
      ...bench.guides.map((item) => ({ ...item, ...own, what: /** @type {const} */ ("guide") })),
    ];
    this.#ring(waits);
    this.#bench.data = {
      run,
      bench,
      waits,
      signs: [],
      now,
      link: NO_LINK,
      beside: () => [],
      lead: () => null,
      isGiven: () => false,
      undoing,
      practice: say("page-practice-short"),
    };
  }

  /** Once for each phase that begins while this is open. @param {readonly Item[]} waits */
  #ring(waits) {
    const phases = new Map(waits.map((item) => [`${item.what} ${item.step}`, item.phase]));
    for (const [key, phase] of phases) {
      const rings = RINGS[phase];
      if (this.#phases.has(key) && this.#phases.get(key) !== phase && rings)
        tell(this, "practice-rang", { phase: rings });
    }
    this.#phases = phases;
  }
}

export const registerPracticeScreen = () => define("practice-screen", PracticeScreen);
