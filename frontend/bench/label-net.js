/** Net content on a label: its words, shortfall, heights of letters and digits. As bench/label_net.py. */

import { last } from "./lists.js";
import { ceiling } from "./whole.js";
import { point } from "../words.js";
/** @import { LabelSize, Market } from "../../bench/shapes/page" */

const INCH_UM = 25_400;
const POUND = 16; // in ounces
const FOUR_POUNDS = 64;
/** @type {[number, number][]} */
const NET_SIXTEENTHS = [
  [5, 1],
  [25, 2],
  [100, 3],
  [400, 4],
  [Infinity, 8],
];
/** @type {[number, number][]} */
const DIGITS = [
  [50, 2_000],
  [200, 3_000],
  [1_000, 4_000],
  [Infinity, 6_000],
];
/** @type {[most: number, perMille: number, tenths: number][]} */
const SHORTFALLS = [
  [50, 90, 0],
  [100, 0, 45],
  [200, 45, 0],
  [300, 0, 90],
  [500, 30, 0],
  [1_000, 0, 150],
  [10_000, 15, 0],
];
export const LEAST_NOMINAL_MG = 5_000;

/**
 * Net content of one piece, never more than is there; see bench/label_net.py.
 * @param {number} mg @param {Market} market
 */
export function netText(mg, market) {
  const tenths = Math.floor(mg / 100);
  const sign = market === "us" ? "." : point();
  const grams =
    mg >= 10_000 ? `${Math.floor(mg / 1000)} g` : `${Math.floor(tenths / 10)}${sign}${tenths % 10} g`;
  return market === "us" ? inOunces(hundredthsOfAnOunce(mg), grams) : grams;
}

/** @param {number} hundredths @param {string} grams */
function inOunces(hundredths, grams) {
  if (hundredths < 100) return `Net Wt 0.${String(hundredths).padStart(2, "0")} oz (${grams})`;
  const tenths = Math.floor(hundredths / 10);
  const ounces = `${Math.floor(tenths / 10)}.${tenths % 10} oz`;
  if (tenths < 10 * POUND) return `Net Wt ${ounces} (${grams})`;
  if (tenths < 10 * FOUR_POUNDS) {
    const over = tenths % (10 * POUND);
    const rest = over ? ` ${Math.floor(over / 10)}.${over % 10} oz` : "";
    return `Net Wt ${ounces} (${Math.floor(tenths / (10 * POUND))} lb${rest}) ${grams}`;
  }
  const ofPound = Math.floor(hundredths / POUND);
  const decimals = String(ofPound % 100).padStart(2, "0");
  return `Net Wt ${Math.floor(ofPound / 100)}.${decimals} lb (${grams})`;
}

/** Whole hundredths of an ounce that are in it. @param {number} mg */
export const hundredthsOfAnOunce = (mg) => Number((BigInt(mg) * 100_000_000n) / 28_349_523_125n);

/**
 * By how much one pack may be short of its nominal content, in mg; null where no figure is known here.
 * @param {number} mg @param {Market} market
 */
export function shortfall(mg, market) {
  const nominal = Math.floor(mg / 1000);
  if (market === "us" || mg < LEAST_NOMINAL_MG) return null;
  const found = SHORTFALLS.find(([most]) => nominal <= most);
  return found ? 100 * (found[2] || ceiling(nominal * found[1], 100)) : null;
}

/**
 * The least letter heights in µm, rounded up; null where no rule is known here.
 * @param {Market} market @param {LabelSize | null | undefined} size @param {number | null} [netMg]
 */
export function leastHeights(market, size, netMg = null) {
  if (market !== "us") {
    const nominal = Math.floor((netMg ?? 0) / 1000);
    const [, digits] = DIGITS.find(([most]) => nominal <= most) ?? last(DIGITS);
    return { list_um: null, net_um: netMg ? digits : null };
  }
  if (!size) return { list_um: null, net_um: null };
  const surface = size.width_um * size.height_um;
  const panel = surface * (size.shape === "rectangle" ? 100 : 40);
  const squareInch = INCH_UM * INCH_UM;
  const parts = surface < 12 * squareInch ? 32 : 16;
  const [, sixteenths] =
    NET_SIXTEENTHS.find(([most]) => panel <= 100 * most * squareInch) ?? last(NET_SIXTEENTHS);
  return { list_um: Math.ceil(INCH_UM / parts), net_um: Math.ceil((INCH_UM * sixteenths) / 16) };
}
