// The bench with a batch for practice on it: the same screen, the same answers, and nothing that stays.
//
//   screen.data = { practice, now }        // practice: see keep/practice.js
//   "practice-rang" { phase }              // something that counts is due

import { define, tell } from "../parts/dom.js";

const SHORT = "Practice: 1 min here is 1 h";
const RINGS = { look: "look", ready: "ready", soon_late: "late" };
const NO_LINK = { state: "online", unsent: 0, refused: [], shut: null };

class PracticeScreen extends HTMLElement {
  #bench = document.createElement("bench-screen");
  #data = null;
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

  set data(data) {
    this.#data = data;
    this.#draw();
  }

  get spoken() {
    return this.#bench.spoken;
  }

  trouble(text) {
    this.#bench.trouble(text);
  }

  said(text) {
    this.#bench.said(text);
  }

  /** What the bench tells stays here: the page would keep it. */
  #hear(name, act) {
    this.#bench.addEventListener(name, (event) => {
      event.stopPropagation();
      act(event.detail);
    });
  }

  #draw() {
    const { practice, now } = this.#data;
    const { run, bench, undoing } = practice;
    const waits = Object.entries({ wait: bench.waits, window: bench.windows, guide: bench.guides }).flatMap(
      ([what, list]) => list.map((item) => ({ ...item, what, run: run.id, run_name: "" })),
    );
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
      practice: SHORT,
    };
  }

  /** Once for each phase that begins while this is open. */
  #ring(waits) {
    const phases = new Map(waits.map((item) => [`${item.what} ${item.step}`, item.phase]));
    for (const [key, phase] of phases) {
      if (this.#phases.has(key) && this.#phases.get(key) !== phase && RINGS[phase])
        tell(this, "practice-rang", { phase: RINGS[phase] });
    }
    this.#phases = phases;
  }
}

export const registerPracticeScreen = () => define("practice-screen", PracticeScreen);
