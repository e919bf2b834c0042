// Everything that counts, over all runs: tapers that shorten, those of the batch in hand first and then the most
// urgent, each with its letter, its word, the time left and what it asks for, and its batch where there are several.
// One row: what has no room in it is counted at its end, and a touch there shows all.
//
//   strip.data = { waits, now: () => ms, here: runId | null }  // waits as studio.waits() gives them
//   strip.addEventListener("wait-chosen", (e) => e.detail);    // { run, step }
//   strip.addEventListener("wait-turned", …);                  // an instant has passed: ask the bench again
//
// A list of buttons in a labelled region. Digits are tabular and the items of a row have one
// width, so nothing moves as they tick; a taper is redrawn only when it shortens by 1/80.
// With nothing counting the strip is not there.

import { last } from "../bench/lists.js";
import { define, first, h, keyed, s, setAttr, setText, show, tell } from "./dom.js";
import { letterMark, relabelMark } from "./hatch.js";
import { pickOne } from "./sheets.js";
import { onTick } from "./ticker.js";
import { timeLeft } from "./words.js";
import { say } from "../words.js";
/** @import { Keyed } from "../../types/dom" */
/** @import { Item } from "../../types/keep" */

const NOTCHES = 80;
const MOST_NAMED = 9; // letters of a batch's name that a chip has room for
// In rem: the least width of an item, of one that names its batch, and of what counts the others (style/bench.css).
const LEAST = 7;
const LEAST_NAMED = 8.25;
const MORE = 4.5;
const GAP_PX = 8;
// A burst first, then what can be missed, then what can be looked at; what only counts comes last.
/** @type {{[kind: string]: {[phase: string]: number}}} */
const URGENCY = {
  guide: { ready: 0, counting: 0 },
  window: { late: 1, soon_late: 2, open: 3 },
  wait: { late: 1, soon_late: 2, ready: 4, look: 5, counting: 6 },
};
const ASKING = new Set(["late", "soon_late", "ready", "look", "over"]);
/** @param {string} phase */
const asks = (phase) => (ASKING.has(phase) ? say("page-bench-asks", { phase }) : "");

/**
 * @typedef {{run: string, batch: string, title: string, step: string, letter: string, phase: string, asks: string,
 *   kind: "wait" | "window" | "guide", key: string, word: string, from: number, until: number,
 *   turns: (number | null)[]}} Taper
 * @typedef {{button: HTMLElement, mark: SVGElement, word: Element, left: Element, batch: Element, asks: Element,
 *   body: Element}} ChipParts
 * @typedef {HTMLElement & {parts?: ChipParts, notch?: number}} Chip
 */

/**
 * Waits, windows and guides as one shape: from, until (the instant counted to) and the turns in between.
 * @param {Item} item @returns {Taper}
 */
export function asTaper(item) {
  const common = {
    run: item.run,
    batch: item.run_name,
    title: item.title,
    step: item.step,
    letter: item.letter,
    phase: item.phase,
    asks: item.what === "wait" ? item.asks : asks(item.phase),
  };
  if (item.what === "wait") {
    const last = item.latest_at ?? item.usual_at;
    const next = item.phase === "counting" ? item.earliest_at : item.phase === "look" ? item.usual_at : last;
    return {
      ...common,
      kind: "wait",
      key: `wait ${item.run} ${item.step}`,
      word: item.word,
      from: item.began_at,
      until: next,
      turns: [item.earliest_at, item.usual_at, item.latest_at],
    };
  }
  if (item.what === "window") {
    return {
      ...common,
      kind: "window",
      key: `window ${item.run} ${item.step}`,
      word: verb(item.title),
      from: item.opened_at,
      until: item.latest_at,
      turns: [item.latest_at],
    };
  }
  return {
    ...common,
    kind: "guide",
    key: `guide ${item.run} ${item.step}`,
    word: verb(item.title),
    from: item.began_at,
    until: item.until,
    turns: [item.rests_at ?? null, item.until],
  };
}

/** "Pipe a top on each base" is "Pipe" on a chip that small. @param {string} title */
const verb = (title) => title.split(" ")[0];

/**
 * What each of some batches is called on a chip: the last of its name, "K2", where that tells them apart.
 * @param {Taper[]} items
 */
function shortNames(items) {
  const names = new Map(items.map(({ run, batch }) => [run, batch ?? ""]));
  const ends = new Map([...names].map(([run, name]) => [run, last(name.split(/[-/ ]/))]));
  if (new Set(ends.values()).size === names.size) return ends;
  return new Map(
    [...names].map(([run, name]) => [
      run,
      name.length > MOST_NAMED ? `\u2026${name.slice(1 - MOST_NAMED)}` : name,
    ]),
  );
}

const rem = () => parseFloat(getComputedStyle(document.documentElement).fontSize);

/** A burst that is over heats on, or stands and cools: it is not ready. @param {Taper} given */
const asksOf = ({ kind, phase }) => asks(kind === "guide" && phase === "ready" ? "over" : phase);

export class WaitStrip extends HTMLElement {
  #list = h("ul", { class: "strip" });
  #more = h(
    "button",
    { type: "button", class: "outlined wait-more", onclick: () => this.#showAll() },
    h("span"),
    h("span"),
  );
  #shown = /** @type {Taper[]} */ ([]); // those of the items that have room
  #names = /** @type {Map<string, string>} */ (new Map()); // of batches, by run, where there are several
  #width = 0;
  #rem = rem();
  #sized = new ResizeObserver(([{ contentRect }]) => this.#resize(contentRect.width));
  /** @type {Taper[]} */
  #items = [];
  #now = Date.now;
  /** @type {string | null} */
  #here = null;
  /** @type {(() => void) | null} */
  #stop = null;

  connectedCallback() {
    if (!this.#list.isConnected) {
      setAttr(this, "role", "region");
      setAttr(this, "aria-label", say("page-bench-countdowns"));
      this.append(this.#list);
    }
    this.#stop = onTick(() => this.#tick());
    this.#sized.observe(this);
  }

  disconnectedCallback() {
    this.#sized.disconnect();
    this.#stop?.();
  }

  /** @param {{waits: readonly Item[], now: () => number, here: string | null}} given */
  set data({ waits, now, here }) {
    this.#now = now;
    this.#here = here;
    const urgency = (/** @type {Taper} */ item) => URGENCY[item.kind][item.phase];
    const away = (/** @type {Taper} */ item) => (here === null || item.run === here ? 0 : 1);
    this.#items = waits
      .map(asTaper)
      .sort(
        (a, b) =>
          away(a) - away(b) || urgency(a) - urgency(b) || a.until - b.until || (a.key < b.key ? -1 : 1),
      );
    this.update();
  }

  update() {
    const at = this.#now();
    show(this, this.#items.length > 0);
    if (this.#items.length === 0) this.#width = 0;
    else if (!this.#width) [this.#width, this.#rem] = [this.#list.clientWidth, rem()];
    const room = this.#room();
    this.#shown = this.#items.slice(0, room);
    this.#names = this.#isSeveral ? shortNames(this.#items) : new Map();
    const rows = this.#shown.length < this.#items.length ? [...this.#shown, null] : this.#shown;
    keyed(
      this.#list,
      rows,
      (item) => item?.key ?? "more",
      (item) => (item ? this.#make(item) : h("li", { class: "wait-rest" }, this.#more)),
      (node, item) => (item ? this.#write(node, item, at) : this.#writeMore()),
    );
  }

  /** How many items have room in one row, beside the count of the others where there are any. */
  #room() {
    const size = this.#rem;
    const least = (this.#isSeveral ? LEAST_NAMED : LEAST) * size;
    const fit = (/** @type {number} */ width) => Math.max(1, Math.floor((width + GAP_PX) / (least + GAP_PX)));
    const all = this.#items.length;
    return !this.#width || fit(this.#width) >= all ? all : fit(this.#width - MORE * size - GAP_PX);
  }

  /** @param {number} width */
  #resize(width) {
    const size = rem();
    if (width === this.#width && size === this.#rem) return;
    this.#rem = size;
    this.#width = width;
    if (width) this.update(); // else it is not there, and is measured when it is
  }

  #writeMore() {
    const rest = this.#items.slice(this.#shown.length);
    const late = rest.filter(({ phase }) => phase === "late" || phase === "soon_late").length;
    setText(first(this.#more), say("page-bench-more", { count: rest.length }));
    setText(first(this.#more, 1), late ? say("page-bench-more-late", { count: late }) : "");
    setAttr(this.#more, "data-late", late > 0);
  }

  async #showAll() {
    const at = this.#now();
    const several = this.#isSeveral;
    const says = (/** @type {Taper} */ item) =>
      [`${timeLeft(item.until - at)} ${asksOf(item)}`.trim(), several ? item.batch : ""]
        .filter(Boolean)
        .join(", ");
    const choices = this.#items.map((item) => ({
      letter: item.letter,
      label: item.title,
      says: says(item),
      value: item,
    }));
    const picked = await pickOne({ title: say("page-bench-all-counts"), choices });
    if (picked) tell(this, "wait-chosen", { run: picked.run, step: picked.step });
  }

  /** More than one batch counts, or another than the one in hand. */
  get #isSeveral() {
    const runs = new Set(this.#items.map(({ run }) => run));
    if (this.#here !== null) runs.add(this.#here);
    return runs.size > 1;
  }

  #tick() {
    const at = this.#now();
    let turned = false;
    const nodes = /** @type {Keyed<string, Chip>} */ (this.#list).keyedNodes;
    for (const item of this.#shown) {
      const node = nodes?.get(item.key);
      if (node) this.#count(node, item, at);
    }
    for (const item of this.#items) {
      turned ||= item.turns.some((turn) => turn !== null && turn > this.lastTick && turn <= at);
    }
    this.lastTick = at;
    if (turned) tell(this, "wait-turned");
  }

  lastTick = Infinity;

  /** @param {Taper} item */
  #make(item) {
    const button = h(
      "button",
      { type: "button", class: "wait" },
      letterMark(item.letter),
      h("span", { class: "wait-word" }),
      h("span", { class: "wait-left figures" }),
      h("span", { class: "wait-batch" }),
      h("span", { class: "wait-asks" }),
      s(
        "svg",
        { class: "wait-taper", viewBox: "0 0 80 10", preserveAspectRatio: "none", "aria-hidden": "true" },
        s("path", { class: "spent", d: "M0 0L80 3V7L0 10Z" }),
        s("path", { class: "body" }),
      ),
    );
    /** @type {Chip} */
    const node = h("li", {}, button);
    node.parts = {
      button,
      mark: /** @type {SVGElement} */ (button.children[0]),
      word: button.children[1],
      left: button.children[2],
      batch: button.children[3],
      asks: button.children[4],
      body: first(button.children[5], 1),
    };
    return node;
  }

  /** @param {Chip} node @param {Taper} item @param {number} at */
  #write(node, item, at) {
    if (!node.parts) return;
    const { button, mark, word, batch, asks } = node.parts;
    button.onclick = () => tell(this, "wait-chosen", { run: item.run, step: item.step });
    relabelMark(mark, item.letter);
    setText(word, item.word);
    setText(batch, this.#names.get(item.run) ?? "");
    setText(asks, asksOf(item));
    setAttr(batch, "data-alone", !asks.textContent);
    setAttr(button, "data-phase", item.phase);
    setAttr(button, "title", item.asks);
    this.#count(node, item, at);
  }

  /** @param {Chip} node @param {Taper} item @param {number} at */
  #count(node, item, at) {
    if (!node.parts) return;
    const { left, body } = node.parts;
    // What is ready has no number: it was "13 h 34 ready" with that much left, and "+9 h 17 ready" with that much past.
    setText(left, item.kind === "wait" && item.phase === "ready" ? "" : timeLeft(item.until - at));
    const share = Math.max(0, Math.min(1, (item.until - at) / Math.max(1, item.until - item.from)));
    const notch = Math.ceil(share * NOTCHES);
    if (node.notch === notch) return;
    node.notch = notch;
    const half = 5 - 3 * (notch / NOTCHES);
    setAttr(
      body,
      "d",
      notch ? `M0 0L${notch} ${(5 - half).toFixed(2)}V${(5 + half).toFixed(2)}L0 10Z` : null,
    );
  }
}

export const registerWaitStrip = () => define("wait-strip", WaitStrip);
