// A label drawn at its true size, and how high its letters really are.
//
//   const { node, letters, fits } = drawLabel(told, { width_mm, height_mm }, parent)
//
// letters: {list_um, net_um}, the height of a small o as this browser draws it, in thousandths of a
// millimetre; in Europe of the net content's digits. The largest type that fits the label is taken, and the net
// content is never drawn under the least height that its rule asks for; fits is false when even the least type does
// not go on it.

import { h, part, s } from "./dom.js";
import { dayWords } from "./stock.js";
import { say, spoken } from "../words.js";
/** @import { Label, Market } from "../../bench/shapes/page" */

const UM_PER_PX = 25_400 / 96; // a CSS pixel is 1/96 inch
const LEAST_PT = 3;
const MOST_PT = 14;
const MEASURED_PX = 200; // large enough that whole pixels tell; larger, and browsers round more coarsely
const STEPS = 12; // halvings: finer than a hundredth of a point

/**
 * @param {Label & {function?: string | null}} told @param {{width_mm: number, height_mm: number}} given
 * @param {HTMLElement} parent
 */
export function drawLabel(told, { width_mm: width, height_mm: height }, parent) {
  const node = h(
    "article",
    {
      class: "label-plate",
      lang: told.market === "eu" ? spoken() : "en",
      "aria-label": say("page-label-plate"),
    },
    ...contents(told),
  );
  Object.assign(node.style, { width: `${width}mm`, height: `${height}mm` });
  parent.replaceChildren(node);
  const net = part(node, ".label-net");
  const least = told.heights.net.least_um ?? 0;
  const sign = told.market === "us" ? "o" : "0";
  net.style.fontSize = `max(1em, ${Math.ceil((100 * least) / UM_PER_PX / shareOf(net, sign)) / 100}px)`;
  const isIn = (/** @type {number} */ points) => {
    node.style.fontSize = `${points}pt`;
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
    letters: { list_um: letterOf(part(node, ".label-list")), net_um: letterOf(net, sign) },
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

/** @param {Label & {function?: string | null}} given */
function contents({
  market,
  identity,
  net,
  text,
  batch,
  opened,
  best_before: best,
  precautions,
  maker,
  function: purpose,
}) {
  return [
    h("p", { class: "label-name" }, identity),
    purpose ? h("p", {}, purpose) : null,
    h("p", { class: "label-net" }, net),
    h("p", { class: "label-list" }, say("page-label-plate-list", { names: text })),
    precautions.length
      ? h("p", { class: "label-care" }, precautions.map(({ says }) => says).join(" "))
      : null,
    h(
      "p",
      { class: "label-foot" },
      batch ? h("span", {}, say("page-label-plate-batch", { market, number: batch })) : null,
      best ? h("span", {}, say("page-label-plate-best", { market, day: dayOf(market, best) })) : null,
      opened ? openJar(opened) : null,
    ),
    h("p", { class: "label-maker" }, maker ?? ""),
  ].filter(Boolean);
}

/**
 * A day as its market writes it: in the words of the page's language, and where the label is always English in
 * figures, in the UK the day first.
 * @param {Market} market @param {string} day
 */
function dayOf(market, day) {
  if (market === "eu") return dayWords(day);
  return market === "uk" ? day.split("-").reverse().join("/") : day;
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
