// The bowl, cut through the middle like a plate in a handbook. What has been weighed lies
// in it as hatched layers whose areas are in proportion to their masses; what comes next
// is an empty band up to its mark, with a copper tick.
//
//   bowl.data = { letter: "A", label: "Big bowl", shape: "bowl" | "jug", full: 900000,
//                 layers: [{ id, name, mg, amount: "480 g" }], next: { name, mg, amount } | null }
//
// `full` is the mass (mg) that the drawing is filled by.

import { define, first, keyed, s, setAttr, setText } from "./dom.js";
import { hatch } from "./hatch.js";
import { say } from "../words.js";

const DEEP = 132;
const MIDDLE = 126;
const BRIM = 22;
const FLOOR = BRIM + DEEP;
const SLICES = 66;
const BRIMFUL = 0.86; // how much of the section's area a full batch takes
const NAME_FITS = 18; // characters beside the bowl
const SEEN = 5; // least height of the band to be filled, so that half a gram still shows

/**
 * @typedef {"bowl" | "jug"} Shape
 * @typedef {{id: string, name: string, mg: number, amount: string}} BowlLayer
 * @typedef {BowlLayer & {turn: number, low: number, high: number}} DrawnLayer
 * @typedef {{name: string, mg: number, amount: string}} NextLayer
 * @typedef {{id: string, name: string, at: number, y: number, isNext: boolean}} Callout
 * @typedef {{letter: string, label: string, shape: Shape, full: number, layers: BowlLayer[],
 *   next: NextLayer | null}} BowlData
 */

/**
 * Half the inner width at a height above the floor, both in drawing units, by shape.
 * @type {{[S in Shape]: (height: number) => number}}
 */
const PROFILES = {
  bowl: (height) => {
    const down = 1 - height / DEEP;
    return 84 * Math.sqrt(1 - down ** 2.7) + 24 - 6 * down;
  },
  jug: (height) => 62 + 12 * (height / DEEP) - 16 * Math.max(0, 1 - height / 18) ** 2.4,
};

/** @type {{[shape: string]: number[]}} */
const AREAS = Object.fromEntries(
  Object.entries(PROFILES).map(([shape, halfWidth]) => {
    const sums = [0];
    for (let i = 1; i <= SLICES; i += 1) sums.push(sums[i - 1] + halfWidth(((i - 0.5) * DEEP) / SLICES));
    return [shape, sums];
  }),
);

/**
 * The height at which the section holds a share (0..1) of its whole area.
 * @param {Shape} shape @param {number} share
 */
function heightOf(shape, share) {
  const sums = AREAS[shape];
  const area = Math.min(1, Math.max(0, share)) * sums[SLICES];
  const above = sums.findIndex((sum) => sum >= area);
  if (above <= 0) return 0;
  const part = (area - sums[above - 1]) / (sums[above] - sums[above - 1]);
  return ((above - 1 + part) * DEEP) / SLICES;
}

/**
 * The closed outline of the section between two heights, `grow` units wider on each side.
 * @param {Shape} shape @param {number} low @param {number} high
 */
function outline(shape, low, high, grow = 0) {
  /** @type {number[]} */
  const points = [];
  const count = Math.max(2, Math.ceil(((high - low) / DEEP) * 40));
  for (let i = 0; i <= count; i += 1) points.push(low + ((high - low) * i) / count);
  const x = (/** @type {number} */ height) => PROFILES[shape](height) + grow;
  const y = (/** @type {number} */ height) => (BRIM + DEEP - height).toFixed(1);
  const right = points.map((height) => `${(MIDDLE + x(height)).toFixed(1)} ${y(height)}`);
  const left = [...points].reverse().map((height) => `${(MIDDLE - x(height)).toFixed(1)} ${y(height)}`);
  return `M${right.join("L")}L${left.join("L")}Z`;
}

/** @param {number} height */
const brimY = (height) => BRIM + DEEP - height;

export class BowlSection extends HTMLElement {
  #layers = s("g", {});
  #names = s("g", { class: "callouts" });
  #band = s("path", { class: "band" });
  #tick = s(
    "g",
    { class: "tick" },
    s("path", { d: "M0 0L13 -7.500V7.500Z" }),
    s("path", { class: "level", d: "M0 0H-190" }),
  );
  #wall = s("path", { class: "wall" });
  #inside = s("path", { class: "inside" });
  #foot = s("path", { class: "wall" });
  #handle = s("path", { class: "handle" });
  #rims = [s("circle", { class: "wall", cy: BRIM, r: 7 }), s("circle", { class: "wall", cy: BRIM, r: 7 })];
  /** @type {Shape | ""} */
  #shape = "";
  #svg;

  constructor() {
    super();
    this.#svg = s(
      "svg",
      { viewBox: "14 8 414 170", role: "img", preserveAspectRatio: "xMidYMid meet" },
      this.#handle,
      this.#wall,
      this.#foot,
      this.#inside,
      this.#layers,
      this.#band,
      ...this.#rims,
      this.#names,
      this.#tick,
    );
  }

  connectedCallback() {
    if (!this.#svg.isConnected) this.append(this.#svg);
  }

  /** @param {BowlData} given */
  set data({ letter, label, shape, full, layers, next }) {
    this.#stand(shape);
    const halfWidth = PROFILES[shape];
    const share = (/** @type {number} */ mg) => (full > 0 ? (mg / full) * BRIMFUL : 0);
    let sum = 0;
    const drawn = layers.map((layer, turn) => {
      const low = heightOf(shape, share(sum));
      sum += layer.mg;
      return { ...layer, turn, low, high: heightOf(shape, share(sum)) };
    });
    keyed(
      this.#layers,
      drawn,
      (layer) => layer.id,
      () => s("path", { class: "layer" }),
      (node, layer) => {
        setAttr(node, "d", outline(shape, layer.low, Math.max(layer.high, layer.low + 0.6)));
        setAttr(node, "fill", hatch(letter, layer.turn));
      },
    );
    const top = heightOf(shape, share(sum));
    const markAt = next
      ? Math.min(DEEP - 3, Math.max(heightOf(shape, share(sum + next.mg)), top + SEEN))
      : top;
    setAttr(this.#band, "d", next ? outline(shape, top, markAt) : null);
    setAttr(
      this.#tick,
      "transform",
      `translate(${(MIDDLE + halfWidth(markAt) + 1).toFixed(1)} ${brimY(markAt).toFixed(1)})`,
    );
    setAttr(first(this.#tick, 1), "d", `M0 0H${(-2 * halfWidth(markAt)).toFixed(1)}`);
    setAttr(this.#tick, "display", next ? null : "none");
    this.#callouts(halfWidth, drawn, next, markAt);
    setAttr(this.#svg, "aria-label", this.#spoken(label, layers, next));
  }

  /** The empty vessel, drawn again only when its shape is another. @param {Shape} shape */
  #stand(shape) {
    if (shape === this.#shape) return;
    this.#shape = shape;
    const brim = PROFILES[shape](DEEP) + 5;
    const base = shape === "jug" ? [PROFILES.jug(0) + 4, PROFILES.jug(0) + 6, 8] : [46, 50, 12];
    setAttr(this.#wall, "d", outline(shape, 0, DEEP, 6.5));
    setAttr(this.#inside, "d", outline(shape, 0, DEEP));
    setAttr(
      this.#foot,
      "d",
      `M${MIDDLE - base[0]} ${FLOOR - 2}h${2 * base[0]}l${base[1] - base[0]} ${base[2] + 2}h${-2 * base[1]}Z`,
    );
    setAttr(this.#handle, "d", shape === "jug" ? `M${MIDDLE - brim} ${BRIM + 18}c-48 2 -44 74 6 70` : null);
    this.#rims.forEach((rim, side) => setAttr(rim, "cx", MIDDLE + (side ? brim : -brim)));
  }

  /**
   * Names stand at the right with a thin leader; the newest few, kept a line apart.
   * @param {(height: number) => number} halfWidth @param {DrawnLayer[]} drawn @param {NextLayer | null} next
   * @param {number} markAt
   */
  #callouts(halfWidth, drawn, next, markAt) {
    /** @type {Callout[]} */
    const wanted = drawn
      .slice(next ? -4 : -5)
      .map(({ id, name, low, high }) => ({ id, name, at: (low + high) / 2, y: 0, isNext: false }));
    if (next) wanted.push({ id: "next", name: next.name, at: markAt, y: 0, isNext: true });
    let lowest = FLOOR + 8;
    for (const callout of wanted) {
      callout.y = Math.min(brimY(callout.at) + 5, lowest);
      lowest = callout.y - (callout.isNext ? 21 : 18);
    }
    // The stack may have climbed past the brim: push it down again from the top.
    let highest = 16;
    for (const callout of [...wanted].reverse()) {
      callout.y = Math.max(callout.y, highest);
      highest = callout.y + 18;
    }
    keyed(
      this.#names,
      wanted,
      (callout) => callout.id,
      () => s("g", {}, s("path", { class: "leader" }), s("text", {})),
      (node, callout) => {
        const x = MIDDLE + halfWidth(callout.at) + (callout.isNext ? 16 : -6);
        const y = brimY(callout.at);
        setAttr(node, "class", callout.isNext ? "callout next" : "callout");
        setAttr(first(node), "d", `M${x.toFixed(1)} ${y.toFixed(1)}L250 ${(callout.y - 5).toFixed(1)}h5`);
        setAttr(first(node, 1), "x", 258);
        setAttr(first(node, 1), "y", callout.y.toFixed(1));
        setText(first(node, 1), shorten(callout.name));
      },
    );
  }

  /** @param {string} label @param {BowlLayer[]} layers @param {NextLayer | null} next */
  #spoken(label, layers, next) {
    const names = layers.map((layer) => `${layer.name} ${layer.amount}`).join(", ");
    const held = names
      ? say("page-bench-holds", { vessel: label, layers: names })
      : say("page-bench-holds-nothing", { vessel: label });
    if (!next) return held;
    return [held, say("page-bench-next", { name: next.name, amount: next.amount })].join(" ");
  }
}

/** "Citric acid, anhydrous" is citric acid enough beside its layer. @param {string} name */
function shorten(name) {
  const plain = name.split(/[,(]/)[0].trim();
  return plain.length > NAME_FITS ? `${plain.slice(0, NAME_FITS - 1).trimEnd()}\u2026` : plain;
}

export const registerBowlSection = () => define("bowl-section", BowlSection);
