// Everything that counts, over all runs: tapers that shorten, the most urgent first, each
// with its letter, its word, the time left and what it asks for.
//
//   strip.data = { waits, now: () => ms, here: runId | null }  // waits as studio.waits() gives them;
//                                          // those of other runs than `here` are named by their batch
//   strip.addEventListener("wait-chosen", (e) => e.detail);    // { run, step }
//   strip.addEventListener("wait-turned", …);                  // an instant has passed: ask the bench again
//
// A list of buttons in a labelled region. Digits are tabular and every item has one
// width, so nothing moves as they tick; a taper is redrawn only when it shortens by 1/80.
// With nothing counting the strip is not there.

import { define, h, keyed, s, setAttr, setText, show, tell } from "./dom.js";
import { letterMark, relabelMark } from "./hatch.js";
import { onTick } from "./ticker.js";
import { timeLeft } from "./words.js";

const NOTCHES = 80;
const MOST_NAMED = 9; // letters of a batch's name that a chip has room for
// A burst first, then what can be missed, then what can be looked at; what only counts comes last.
const URGENCY = {
  guide: { ready: 0, counting: 0 },
  window: { late: 1, soon_late: 2, open: 3 },
  wait: { late: 1, soon_late: 2, ready: 4, look: 5, counting: 6 },
};
const ASKS = { late: "late", soon_late: "soon late", ready: "ready", look: "look", open: "", counting: "" };

/** Waits, windows and guides as one shape: from, until (the instant counted to) and the turns in between. */
export function asTaper(item) {
  const common = { run: item.run, batch: item.run_name, step: item.step, letter: item.letter, phase: item.phase, asks: item.asks ?? ASKS[item.phase] };
  if (item.earliest_at !== undefined) {
    const next = { counting: item.earliest_at, look: item.usual_at, ready: item.latest_at ?? item.usual_at }[item.phase] ?? item.latest_at ?? item.usual_at;
    return { ...common, kind: "wait", key: `wait ${item.run} ${item.step}`, word: item.word, from: item.began_at, until: next, turns: [item.earliest_at, item.usual_at, item.latest_at] };
  }
  if (item.opened_at !== undefined) {
    return { ...common, kind: "window", key: `window ${item.run} ${item.step}`, word: verb(item.title), from: item.opened_at, until: item.latest_at, turns: [item.latest_at] };
  }
  return { ...common, kind: "guide", key: `guide ${item.run} ${item.step}`, word: verb(item.title), from: item.began_at, until: item.until, turns: [item.until] };
}

/** "Pipe a top on each base" is "pipe" on a chip that small. */
const verb = (title) => title.split(" ")[0].toLowerCase();

/** The end of a long name, where batch numbers of one day differ. */
const tail = (name) => (name.length > MOST_NAMED ? `\u2026${name.slice(1 - MOST_NAMED)}` : name);

class WaitStrip extends HTMLElement {
  #list = h("ul", { class: "strip" });
  #items = [];
  #now = Date.now;
  #here = null;
  #stop = null;

  connectedCallback() {
    if (!this.#list.isConnected) {
      setAttr(this, "role", "region");
      setAttr(this, "aria-label", "Countdowns");
      this.append(this.#list);
    }
    this.#stop = onTick(() => this.#tick());
  }

  disconnectedCallback() {
    this.#stop();
  }

  set data({ waits, now, here }) {
    this.#now = now;
    this.#here = here;
    const urgency = (item) => URGENCY[item.kind][item.phase];
    const first = this.#items[0]?.key;
    this.#items = waits.map(asTaper).sort((a, b) => urgency(a) - urgency(b) || a.until - b.until || (a.key < b.key ? -1 : 1));
    this.update();
    if (this.#items[0]?.key !== first) this.#list.scrollLeft = 0; // the most urgent is always in sight
  }

  update() {
    const at = this.#now();
    show(this, this.#items.length > 0);
    keyed(this.#list, this.#items, (item) => item.key, (item) => this.#make(item), (node, item) => this.#write(node, item, at));
  }

  #tick() {
    const at = this.#now();
    let turned = false;
    for (const item of this.#items) {
      this.#count(this.#list.keyedNodes.get(item.key), item, at);
      turned ||= item.turns.some((turn) => turn !== null && turn > this.lastTick && turn <= at);
    }
    this.lastTick = at;
    if (turned) tell(this, "wait-turned");
  }

  lastTick = Infinity;

  #make(item) {
    const button = h(
      "button",
      { type: "button", class: "wait" },
      letterMark(item.letter),
      h("span", { class: "wait-word" }),
      h("span", { class: "wait-left figures" }),
      h("span", { class: "wait-asks" }),
      s("svg", { class: "wait-taper", viewBox: "0 0 80 10", preserveAspectRatio: "none", "aria-hidden": "true" }, s("path", { class: "spent", d: "M0 0L80 3V7L0 10Z" }), s("path", { class: "body" })),
    );
    const node = h("li", {}, button);
    node.parts = { button, mark: button.children[0], word: button.children[1], left: button.children[2], asks: button.children[3], body: button.lastChild.lastChild };
    return node;
  }

  #write(node, item, at) {
    const { button, mark, word, asks } = node.parts;
    button.onclick = () => tell(this, "wait-chosen", { run: item.run, step: item.step });
    relabelMark(mark, item.letter);
    setText(word, item.word);
    setText(asks, ASKS[item.phase] || (item.run === this.#here ? "" : tail(item.batch)));
    setAttr(button, "data-phase", item.phase);
    setAttr(button, "title", item.asks);
    this.#count(node, item, at);
  }

  #count(node, item, at) {
    const { left, body } = node.parts;
    setText(left, timeLeft(item.until - at));
    const share = Math.max(0, Math.min(1, (item.until - at) / Math.max(1, item.until - item.from)));
    const notch = Math.ceil(share * NOTCHES);
    if (node.notch === notch) return;
    node.notch = notch;
    const half = 5 - 3 * (notch / NOTCHES);
    setAttr(body, "d", notch ? `M0 0L${notch} ${(5 - half).toFixed(2)}V${(5 + half).toFixed(2)}L0 10Z` : null);
  }
}

export const registerWaitStrip = () => define("wait-strip", WaitStrip);
