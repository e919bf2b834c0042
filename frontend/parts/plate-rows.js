// The other plates beside the bowl: tapers for bursts, small bowls for portions, cavities
// for pieces, rings for looks. One element draws whichever it is given.
//
//   plate.data = { kind: "bursts", letter, planned: [{ ms, rest_ms }], burnt: [{ ms, at }], now, word }
//   plate.data = { kind: "portions", letter, portions: [{ name, share, mg, next }] }
//   plate.data = { kind: "cavities", letter, verb, good, spoiled, partial, count }
//   plate.data = { kind: "looks", letter, looks: ["not_yet", …] }
//   plate.data = { kind: "taper", letter, from, earliest, until, now, caption }

import { define, keyed, s, setAttr } from "./dom.js";
import { heated, notGood } from "./figure.js";
import { hatch } from "./hatch.js";
import { about, duration } from "./words.js";
import { say } from "../words.js";
/** @import { Props } from "../../types/dom" */
/** @import { Verdict } from "../../bench/shapes/page" */

const WIDE = 370;
/** @type {{[kind: string]: number}} */
const TALL = { looks: 52, taper: 150 };

/**
 * @typedef
 * {{kind: "bursts", letter: string, planned: readonly {ms: number}[], burnt: readonly {ms: number, at: number}[],
 *   now: number, word: "burst" | "heat"}} BurstsPlate
 * @typedef {{name: string, share: number, mg: number, next: boolean}} PlatePortion
 * @typedef {{kind: "portions", letter: string, portions: PlatePortion[]}} PortionsPlate
 * @typedef {{kind: "cavities", letter: string, verb: string, good: number, spoiled: number, partial: number,
 *   count: number}} CavitiesPlate
 * @typedef {{kind: "looks", letter: string, looks: Verdict[]}} LooksPlate
 * @typedef {{kind: "taper", letter: string, from: number, earliest: number | null, until: number, now: number,
 *   caption: string}} TaperPlate
 * @typedef {BurstsPlate | PortionsPlate | CavitiesPlate | LooksPlate | TaperPlate} PlateData
 * @typedef {{tag: keyof SVGElementTagNameMap, props: Props, children: (Shape | string | null)[]}} Shape what an element
 *   will be, so that one that stays as it is need not be made again
 * @typedef {{[D in PlateData as D["kind"]]: (data: D) => (Shape | null)[]}} Drawing
 * @typedef {{[D in PlateData as D["kind"]]: (data: D) => string}} Speaking
 */

/**
 * @param {Shape["tag"]} tag @param {Shape["props"]} props @param {Shape["children"]} children @returns {Shape}
 */
const shape = (tag, props, ...children) => ({ tag, props, children });

/** @param {Shape} drawn @returns {SVGElement} */
const made = ({ tag, props, children }) =>
  s(tag, props, ...children.map((each) => (each && typeof each === "object" ? made(each) : each)));

/** @type {Drawing} */
const draw = {
  bursts({ letter, planned, burnt, now }) {
    const shown = planned.length > burnt.length ? planned : [...burnt];
    const longest = Math.max(...shown.map((burst) => burst.ms), 1);
    const each = Math.min(62, (WIDE - 20) / shown.length);
    const start = (WIDE - each * shown.length) / 2;
    return shown.map((burst, i) => {
      const tall = 42 + (78 * burst.ms) / longest;
      const x = start + each * (i + 0.5);
      const done = burnt[i];
      const left = done ? Math.max(0, Math.min(1, (done.at + done.ms - now) / done.ms)) : 1;
      const isNext = i === burnt.length;
      return shape(
        "g",
        { transform: `translate(${x.toFixed(1)} 138)` },
        shape("path", { class: done ? "taper-body spent" : "taper-body", fill: "none", d: taperUp(tall) }),
        done && left > 0
          ? shape("path", { class: "taper-body", fill: hatch(letter), d: taperUp(tall * left) })
          : null,
        isNext ? shape("path", { class: "copper-mark", d: `M-8 ${-tall - 17}h16L0 ${-tall - 5}Z` }) : null,
        shape("path", { class: "stand", d: "M-15 0H15" }),
        each > 34 || isNext ? shape("text", { class: "below", y: 21 }, duration(burst.ms)) : null,
      );
    });
  },

  portions({ letter, portions }) {
    const each = Math.min(150, WIDE / portions.length);
    const start = (WIDE - each * portions.length) / 2;
    const most = Math.max(...portions.map((portion) => portion.share || portion.mg || 1));
    const r = Math.min(58, each / 2 - 16);
    return portions.map((portion, i) => {
      const x = start + each * (i + 0.5);
      const level = portion.mg
        ? Math.max(0.12, (portion.mg / Math.max(...portions.map((p) => p.mg || 1))) * 0.8)
        : 0;
      const mark = 0.8 * ((portion.share || most) / most);
      return shape(
        "g",
        { transform: `translate(${x.toFixed(1)} 30)` },
        shape("path", { class: "wall", d: cup(r + 5, 0, 1.05) }),
        shape("path", { class: "inside", d: cup(r, 0, 1) }),
        level ? shape("path", { class: "layer", fill: hatch(letter, i), d: cup(r, 1 - level, 1) }) : null,
        portion.next ? shape("path", { class: "band", d: cup(r, 1 - mark, 1) }) : null,
        portion.next
          ? shape("path", {
              class: "copper-line",
              d: `M${-half(r, 1 - mark)} ${(1 - mark) * r * 1.1}H${half(r, 1 - mark)}`,
            })
          : null,
        portion.next
          ? shape("path", {
              class: "copper-mark",
              d: `M${half(r, 1 - mark) + 1} ${(1 - mark) * r * 1.1}l11 -7v14Z`,
            })
          : null,
        shape("circle", { class: "wall", cx: -r - 4, cy: 0, r: 5 }),
        shape("circle", { class: "wall", cx: r + 4, cy: 0, r: 5 }),
        shape("text", { class: "below strong", y: r * 1.1 + 28 }, portion.name),
        portion.mg ? shape("text", { class: "below", y: r * 1.1 + 48 }, about(portion.mg)) : null,
      );
    });
  },

  cavities({ letter, good, spoiled, partial, count }) {
    const shown = Math.min(48, Math.max(count, good + spoiled + partial));
    const rows = shown > 27 ? 4 : shown > 16 ? 3 : shown > 7 ? 2 : 1;
    const perRow = Math.ceil(shown / rows);
    const size = Math.min(60, (WIDE - 14) / perRow - 8, 156 / rows - 8);
    const startX = (WIDE - perRow * (size + 8) + 8) / 2;
    const startY = (182 - rows * (size + 8) + 8) / 2;
    return Array.from({ length: shown }, (_, i) => {
      const x = startX + (i % perRow) * (size + 8);
      const y = startY + Math.floor(i / perRow) * (size + 8);
      const state =
        i < good
          ? "good"
          : i < good + partial
            ? "partial"
            : i < good + partial + spoiled
              ? "spoiled"
              : i === good + partial + spoiled
                ? "next"
                : "empty";
      const round = Math.min(9, size / 4);
      return shape(
        "g",
        { transform: `translate(${x.toFixed(1)} ${y.toFixed(1)})` },
        shape("rect", {
          class: `cavity ${state}`,
          width: size,
          height: size,
          rx: round,
          fill: state === "good" ? hatch(letter) : "none",
        }),
        state === "partial"
          ? shape("path", {
              class: "layer",
              fill: hatch(letter),
              d:
                `M1 ${size / 2}H${size - 1}V${size - round}q0 ${round - 1} ${1 - round} ` +
                `${round - 1}H${round}q${1 - round} 0 ${1 - round} ${1 - round}Z`,
            })
          : null,
        state === "spoiled"
          ? shape("path", { class: "stroke", d: `M5 5L${size - 5} ${size - 5}M${size - 5} 5L5 ${size - 5}` })
          : null,
        state === "next" ? shape("path", { class: "copper-mark", d: `M${size / 2 - 8} -9h16l-8 12Z` }) : null,
      );
    });
  },

  looks({ looks }) {
    const seen = looks.slice(-7);
    const each = 44;
    const start = (WIDE - each * seen.length) / 2;
    return seen.map((answer, i) => {
      const x = start + each * i + 22;
      return shape(
        "g",
        { transform: `translate(${x} 26)` },
        shape("circle", { class: "ring", r: 14 }),
        shape("path", {
          class: "stroke",
          d: answer === "yes" ? "M-6 0l4 6 8 -12" : answer === "too_far" ? "M-7 -7L7 7M-7 7L7 -7" : "M-7 0H7",
        }),
      );
    });
  },

  taper({ letter, from, earliest, until, now, caption }) {
    const span = Math.max(1, until - from);
    const left = Math.max(0, Math.min(1, (until - now) / span));
    const mark = earliest && earliest < until && earliest > from ? 1 - (earliest - from) / span : null;
    const at = (/** @type {number} */ share) => 24 + share * (WIDE - 48);
    return [
      shape("path", { class: "taper-body spent", d: taperAlong(at(0), at(1), at(1)) }),
      left > 0
        ? shape("path", { class: "taper-body", fill: hatch(letter), d: taperAlong(at(0), at(left), at(1)) })
        : null,
      mark === null ? null : shape("path", { class: "mark-line", d: `M${at(mark)} 42V112` }),
      mark === null
        ? null
        : shape("text", { class: "below", x: at(mark), y: 32 }, say("page-bench-earliest")),
      shape("path", { class: "copper-mark", d: `M${at(left)} 62l-8 -14h16Z` }),
      shape("text", { class: "below", x: WIDE / 2, y: 138 }, caption),
    ];
  },
};

/** A taper standing on its base, point up. @param {number} tall */
function taperUp(tall) {
  return `M-9 0L-5 ${-tall}Q0 ${-tall - 7} 5 ${-tall}L9 0Z`;
}

/**
 * A taper lying down, thick end left, cut at `x`; `end` is where the whole one's point is.
 * @param {number} start @param {number} x @param {number} end
 */
function taperAlong(start, x, end) {
  const thick = (/** @type {number} */ at) => 19 - 13 * ((at - start) / (end - start));
  return `M${start} 58L${x.toFixed(1)} ${(77 - thick(x)).toFixed(1)}V${(77 + thick(x)).toFixed(1)}L${start} 96Z`;
}

/** Half the width of a small bowl at a depth (0 brim, 1 floor). @param {number} r @param {number} depth */
function half(r, depth) {
  return r * (0.4 + 0.6 * Math.sqrt(Math.max(0, 1 - Math.min(1, depth) ** 2.6)));
}

/** The section of a small bowl between two depths. @param {number} r @param {number} top @param {number} bottom */
function cup(r, top, bottom) {
  const depths = Array.from({ length: 17 }, (_, i) => top + ((bottom - top) * i) / 16);
  const right = depths.map((depth) => `${half(r, depth).toFixed(1)} ${(depth * r * 1.1).toFixed(1)}`);
  const left = [...depths]
    .reverse()
    .map((depth) => `${(-half(r, depth)).toFixed(1)} ${(depth * r * 1.1).toFixed(1)}`);
  return `M${right.join("L")}L${left.join("L")}Z`;
}

/** @param {PlatePortion} portion */
const portion = ({ name, mg, next }) =>
  mg ? `${name}: ${about(mg)}` : say("page-bench-portion", { name, state: next ? "next" : "empty" });

/** @type {Speaking} */
const spoken = {
  bursts: ({ planned, burnt, word }) => heated(word, burnt.length, planned.length),
  portions: ({ portions }) => portions.map(portion).join(", "),
  cavities: ({ good, spoiled, partial, count, verb }) =>
    [say("page-bench-made", { good, count, verb }), ...notGood(partial, spoiled)].join(", "),
  looks: ({ looks }) => say("page-bench-checked", { times: looks.length }),
  taper: ({ caption }) => caption,
};

export class PlateRow extends HTMLElement {
  #svg = s("svg", { role: "img", preserveAspectRatio: "xMidYMid meet" });
  #drawn = "";

  connectedCallback() {
    if (!this.#svg.isConnected) this.append(this.#svg);
  }

  /** @param {PlateData} data */
  set data(data) {
    const same = JSON.stringify(data);
    if (same === this.#drawn) return;
    this.#drawn = same;
    setAttr(this.#svg, "viewBox", `0 0 ${WIDE} ${TALL[data.kind] ?? 176}`);
    const drawn = /** @type {(data: PlateData) => (Shape | null)[]} */ (draw[data.kind])(data);
    keyed(
      this.#svg,
      drawn.filter((each) => each !== null),
      (each, place) => `${place} ${JSON.stringify(each)}`,
      made,
    );
    setAttr(this.#svg, "aria-label", /** @type {(data: PlateData) => string} */ (spoken[data.kind])(data));
  }
}

export const registerPlateRow = () => define("plate-row", PlateRow);
