// The bowl, cut through the middle like a plate in a handbook. What has been weighed lies
// in it as hatched layers whose areas are in proportion to their masses; what comes next
// is an empty band up to its mark, with a copper tick.
//
//   bowl.data = { letter: "A", label: "Big bowl", full: 900000,
//                 layers: [{ id, name, mg, amount: "480 g" }], next: { name, mg, amount } | null }
//
// `full` is the mass (mg) that the drawing is filled by.

import { define, keyed, s, setAttr, setText } from "./dom.js";
import { hatch } from "./hatch.js";

const WIDE = 108; // half the inner width at the rim
const DEEP = 132;
const MIDDLE = 126;
const BRIM = 22;
const SLICES = 66;
const BRIMFUL = 0.86; // how much of the section's area a full batch takes
const SEEN = 5; // least height of the band to be filled, so that half a gram still shows

/** Half the inner width at a height above the floor, both in drawing units. */
function halfWidth(height) {
  const down = 1 - Math.min(1, Math.max(0, height / DEEP));
  return WIDE * Math.pow(1 - Math.pow(down, 2.7), 0.5) * 0.78 + WIDE * 0.22 * (1 - down * 0.25);
}

const HEIGHTS = Array.from({ length: SLICES + 1 }, (_, i) => (i * DEEP) / SLICES);
const AREAS = HEIGHTS.reduce((sums, height, i) => {
  if (i) sums.push(sums[i - 1] + halfWidth(height - DEEP / SLICES / 2));
  return sums;
}, [0]);

/** The height at which the section holds a share (0..1) of its whole area. */
function heightOf(share) {
  const area = Math.min(1, Math.max(0, share)) * AREAS[SLICES];
  const above = AREAS.findIndex((sum) => sum >= area);
  if (above <= 0) return 0;
  const part = (area - AREAS[above - 1]) / (AREAS[above] - AREAS[above - 1]);
  return ((above - 1 + part) * DEEP) / SLICES;
}

function outline(low, high, grow = 0) {
  const points = [];
  const count = Math.max(2, Math.ceil(((high - low) / DEEP) * 40));
  for (let i = 0; i <= count; i += 1) points.push(low + ((high - low) * i) / count);
  const x = (height) => halfWidth(height) + grow;
  const y = (height) => (BRIM + DEEP - height).toFixed(1);
  const right = points.map((height) => `${(MIDDLE + x(height)).toFixed(1)} ${y(height)}`);
  const left = [...points].reverse().map((height) => `${(MIDDLE - x(height)).toFixed(1)} ${y(height)}`);
  return `M${right.join("L")}L${left.join("L")}Z`;
}

const FLOOR = BRIM + DEEP;
const brimY = (height) => BRIM + DEEP - height;

class BowlSection extends HTMLElement {
  #layers = s("g", {});
  #names = s("g", { class: "callouts" });
  #band = s("path", { class: "band" });
  #tick = s("g", { class: "tick" }, s("path", { d: "M0 0L13 -7.500V7.500Z" }), s("path", { class: "level", d: "M0 0H-190" }));
  #svg;

  constructor() {
    super();
    this.#svg = s(
      "svg",
      { viewBox: "0 0 370 176", role: "img", preserveAspectRatio: "xMidYMid meet" },
      s("path", { class: "wall", d: `${outline(0, DEEP, 6.5)}` }),
      s("path", { class: "wall", d: `M${MIDDLE - 46} ${FLOOR - 2}H${MIDDLE + 46}L${MIDDLE + 50} ${FLOOR + 12}H${MIDDLE - 50}Z` }),
      s("path", { class: "inside", d: outline(0, DEEP) }),
      this.#layers,
      this.#band,
      s("circle", { class: "wall", cx: MIDDLE - WIDE - 5, cy: BRIM, r: 7 }),
      s("circle", { class: "wall", cx: MIDDLE + WIDE + 5, cy: BRIM, r: 7 }),
      this.#names,
      this.#tick,
    );
  }

  connectedCallback() {
    if (!this.#svg.isConnected) this.append(this.#svg);
  }

  set data({ letter, label, full, layers, next }) {
    const share = (mg) => (full > 0 ? (mg / full) * BRIMFUL : 0);
    let sum = 0;
    const drawn = layers.map((layer, turn) => {
      const low = heightOf(share(sum));
      sum += layer.mg;
      return { ...layer, turn, low, high: heightOf(share(sum)) };
    });
    keyed(
      this.#layers,
      drawn,
      (layer) => layer.id,
      () => s("path", { class: "layer" }),
      (node, layer) => {
        setAttr(node, "d", outline(layer.low, Math.max(layer.high, layer.low + 0.6)));
        setAttr(node, "fill", hatch(letter, layer.turn));
      },
    );
    const top = heightOf(share(sum));
    const markAt = next ? Math.min(DEEP - 3, Math.max(heightOf(share(sum + next.mg)), top + SEEN)) : top;
    setAttr(this.#band, "d", next ? outline(top, markAt) : null);
    setAttr(this.#tick, "transform", `translate(${(MIDDLE + halfWidth(markAt) + 1).toFixed(1)} ${brimY(markAt).toFixed(1)})`);
    setAttr(this.#tick.lastChild, "d", `M0 0H${(-2 * halfWidth(markAt)).toFixed(1)}`);
    setAttr(this.#tick, "display", next ? null : "none");
    this.#callouts(drawn, next, markAt);
    setAttr(this.#svg, "aria-label", this.#spoken(label, layers, next));
  }

  /** Names stand at the right with a thin leader; the newest few, kept a line apart. */
  #callouts(drawn, next, markAt) {
    const wanted = drawn.slice(next ? -4 : -5).map((layer) => ({ ...layer, at: (layer.low + layer.high) / 2 }));
    if (next) wanted.push({ ...next, id: "next", at: markAt, isNext: true });
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
        setAttr(node.firstChild, "d", `M${x.toFixed(1)} ${y.toFixed(1)}L250 ${(callout.y - 5).toFixed(1)}h5`);
        setAttr(node.lastChild, "x", 259);
        setAttr(node.lastChild, "y", callout.y.toFixed(1));
        setText(node.lastChild, shorten(callout.name));
      },
    );
  }

  #spoken(label, layers, next) {
    const held = layers.map((layer) => `${layer.name} ${layer.amount}`).join(", ");
    return `${label}: ${held || "empty"}${next ? `; next ${next.name} ${next.amount}` : ""}`;
  }
}

/** "Citric acid, anhydrous" is citric acid enough beside its layer. */
function shorten(name) {
  const plain = name.split(/[,(]/)[0].trim();
  return plain.length > 16 ? `${plain.slice(0, 15).trimEnd()}\u2026` : plain;
}

export const registerBowlSection = () => define("bowl-section", BowlSection);
