// A label drawn at its true size, and how high its letters really are.
//
//   const { node, letters, fits } = drawLabel(told, { width_mm, height_mm }, parent)
//
// letters: {list_um, net_um}, the height of a small o as this browser draws it, in thousandths of a
// millimetre; in Europe of the net content's digits. The largest type that fits the label is taken, and the net
// content is never drawn under the least height that its rule asks for; fits is false when even the least type does
// not go on it.

import { find, h, part, s } from "./dom.js";
import { say, spoken } from "../words.js";
/** @import { Label, Market, PlateLine, PlatePart } from "../../bench/shapes/page" */

const UM_PER_PX = 25_400 / 96; // a CSS pixel is 1/96 inch
const LOWER = 0.3; // of a US label the net content keeps to it (21 CFR 701.13)
const PAD_PX = 8; // 2 mm below it
const LEAST_PT = 3;
const MOST_PT = 14;
const MEASURED_PX = 200; // large enough that whole pixels tell; larger, and browsers round more coarsely
/** @type {PlatePart[]} */
const HEAD = ["name", "purpose"];
/** @type {PlatePart[]} */
const STATEMENTS = ["signal", "hazard", "advice"];
/** @type {PlatePart[]} */
const FOOT = ["foot", "maker"];
/** @type {PlatePart[]} */
const NET = ["net"];
const OF_PART = "label-"; // the class of a part begins so
const STEPS = 12; // halvings: finer than a hundredth of a point

/**
 * @param {Label} told @param {{width_mm: number, height_mm: number}} size
 * @param {HTMLElement} parent
 */
export function drawLabel(told, size, parent) {
  return draw(told, told.market, told.heights.net.least_um ?? 0, size, parent);
}

/**
 * The words of a sticker that no rule speaks of.
 * @param {readonly PlateLine[]} plate @param {{width_mm: number, height_mm: number}} size @param {HTMLElement} parent
 */
export function drawPlate(plate, size, parent) {
  return draw({ plate, opened: null, clp: null, net_low: false }, "eu", 0, size, parent);
}

/** @typedef {Pick<Label, "plate" | "opened" | "clp" | "net_low">} Drawn */

/**
 * @param {Drawn} told @param {Market} market @param {number} least the net content's letters, in µm
 * @param {{width_mm: number, height_mm: number}} size @param {HTMLElement} parent
 */
function draw(told, market, least, { width_mm: width, height_mm: height }, parent) {
  const node = h(
    "article",
    {
      class: "label-plate",
      lang: market === "eu" ? spoken() : "en",
      "aria-label": say("page-label-plate"),
    },
    ...contents(told),
  );
  Object.assign(node.style, { width: `${width}mm`, height: `${height}mm` });
  parent.replaceChildren(node);
  const net = part(node, ".label-net");
  const sign = market === "us" ? "o" : "0";
  net.style.fontSize = `max(1em, ${Math.ceil((100 * least) / UM_PER_PX / shareOf(net, sign)) / 100}px)`;
  const isIn = (/** @type {number} */ points) => {
    node.style.fontSize = `${points}pt`;
    if (told.net_low && net.offsetHeight + PAD_PX > LOWER * node.clientHeight) return false;
    return node.scrollHeight <= node.clientHeight + 1 && node.scrollWidth <= node.clientWidth + 1;
  };
  let [low, high] = [LEAST_PT, MOST_PT];
  const fits = isIn(low);
  for (let step = 0; fits && step < STEPS; step += 1) {
    const middle = (low + high) / 2;
    if (isIn(middle)) low = middle;
    else high = middle;
  }
  isIn(low);
  return {
    node,
    fits,
    letters: { list_um: letterOf(find(node, ".label-list") ?? net), net_um: letterOf(net, sign) },
  };
}

/**
 * The height of a small o, or another sign, in an element's own type.
 * @param {Element} element @param {string} [sign]
 */
function letterOf(element, sign) {
  return Math.round(
    shareOf(element, sign) * Number.parseFloat(getComputedStyle(element).fontSize) * UM_PER_PX,
  );
}

/** How much of the type's size a small o is high, or another sign. @param {Element} element */
function shareOf(element, sign = "o") {
  const { fontStyle, fontWeight, fontFamily } = getComputedStyle(element);
  const pen = /** @type {CanvasRenderingContext2D} */ (document.createElement("canvas").getContext("2d"));
  pen.font = `${fontStyle} ${fontWeight} ${MEASURED_PX}px ${fontFamily}`;
  return pen.measureText(sign).actualBoundingBoxAscent / MEASURED_PX;
}

/** @param {Drawn} given */
function contents({ plate, opened, clp, net_low: isLow }) {
  /** @param {(part: PlatePart) => boolean} isWanted */
  const drawn = (isWanted) =>
    plate
      .filter(({ part }) => isWanted(part))
      .map(({ part, text }) => h("p", { class: OF_PART + part }, text));
  return [
    ...drawn((part) => HEAD.includes(part)),
    clp?.signal
      ? h(
          "div",
          { class: "label-clp" },
          h(
            "div",
            {},
            drawn((part) => STATEMENTS.includes(part)),
          ),
          clp.pictograms.includes("GHS07") ? exclamation(clp.side_um) : null,
        )
      : null,
    ...drawn((part) => ![HEAD, STATEMENTS, FOOT, isLow ? NET : []].flat().includes(part)),
    h(
      "p",
      { class: "label-foot" },
      plate.filter(({ part }) => part === "foot").map(({ text }) => h("span", {}, text)),
      opened ? openJar(opened) : null,
    ),
    ...drawn((part) => part === "maker"),
    ...drawn((part) => isLow && part === "net"),
  ].filter(Boolean);
}

/** GHS07: a square set at a point in a red frame, and an exclamation mark in it. @param {number} side in µm */
function exclamation(side) {
  const sign = s(
    "svg",
    { class: "label-sign", viewBox: "0 0 100 100", role: "img", "aria-label": "GHS07" },
    s("path", { class: "label-frame", d: "M50 4 96 50 50 96 4 50Z" }),
    s("path", { d: "M42 29a8 8 0 0 1 16 0L54 58a4 4 0 0 1-8 0Z" }),
    s("circle", { cx: 50, cy: 71, r: 6 }),
  );
  const across = `${(side * Math.SQRT2 * 100) / 92 / 1000}mm`; // the frame's own points are 92 of 100 apart
  sign.style.width = across;
  sign.style.height = across;
  return sign;
}

/** An open jar with the months on it: the period after opening. @param {string} months */
function openJar(months) {
  return s(
    "svg",
    {
      class: "open-jar",
      viewBox: "0 0 40 36",
      role: "img",
      "aria-label": say("page-label-plate-opened", { count: Number.parseInt(months, 10) }),
    },
    s("path", { d: "M4 12h32v4H4ZM6 16h28v18H6ZM6 9 34 2" }),
    s("text", { x: 20, y: 30 }, months),
  );
}
