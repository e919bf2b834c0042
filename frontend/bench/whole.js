/**
 * Whole numbers: the one place where anything is rounded. The same rules as bench/whole.py.
 *
 * Masses are whole milligrams, instants and durations whole milliseconds, fractions whole parts
 * per million. What goes in and comes out is a Number that holds its whole number exactly; a
 * product that may pass 2^53 on the way is a BigInt (see `product`).
 */

import { point, say, units } from "../words.js";
/** @typedef {number | bigint} Int a whole number, exactly */

export const PPM = 1_000_000;

/** Below this a sum or difference of two Numbers is still exact. */
const PLAIN = 2 ** 52;

/**
 * a × b, exactly: a Number where it can hold it, else a BigInt. They compare with one another.
 * @param {Int} a @param {Int} b
 */
export function product(a, b) {
  const made = typeof a === "number" && typeof b === "number" ? a * b : NaN;
  return Number.isSafeInteger(made) ? made : BigInt(a) * BigInt(b);
}

/** Whether a division of these is exact in plain Numbers. @param {number} numerator @param {number} denominator */
const isExact = (numerator, denominator) => Math.abs(numerator) < PLAIN && denominator < PLAIN / 2;

/** The same of any two. @param {bigint} top @param {bigint} bottom @returns {[bigint, bigint]} */
function dividedBig(top, bottom) {
  let rest = top % bottom;
  if (rest < 0n) rest += bottom;
  return [(top - rest) / bottom, rest];
}

/**
 * The whole quotient, rounded down, and what remains (never negative).
 * @param {Int} numerator @param {Int} denominator @returns {[number, number]}
 */
export function divided(numerator, denominator) {
  if (typeof numerator === "number" && typeof denominator === "number" && isExact(numerator, denominator)) {
    let rest = numerator % denominator;
    if (rest < 0) rest += denominator;
    return [(numerator - rest) / denominator, rest];
  }
  const [down, rest] = dividedBig(BigInt(numerator), BigInt(denominator));
  return [Number(down), Number(rest)];
}

/**
 * numerator / denominator to the nearest whole number, halves to the even one. The denominator is positive.
 * @param {Int} numerator @param {Int} denominator
 */
export function halfEven(numerator, denominator) {
  if (typeof numerator === "number" && typeof denominator === "number" && isExact(numerator, denominator)) {
    const [down, rest] = divided(numerator, denominator);
    return 2 * rest > denominator || (2 * rest === denominator && down % 2 !== 0) ? down + 1 : down;
  }
  const bottom = BigInt(denominator);
  const [down, rest] = dividedBig(BigInt(numerator), bottom);
  return Number(2n * rest > bottom || (2n * rest === bottom && down % 2n !== 0n) ? down + 1n : down);
}

/**
 * numerator / denominator, rounded up. The denominator is positive.
 * @param {Int} numerator @param {Int} denominator
 */
export function ceiling(numerator, denominator) {
  return 0 - divided(-numerator, denominator)[0];
}

/** @param {readonly number[]} numbers */
export function sum(numbers) {
  return numbers.reduce((total, each) => total + each, 0);
}

/**
 * Divides `total` in proportion to `weights`, whole parts that sum to it exactly.
 *
 * Each part is the difference of two rounded running sums, so no part is off by more than one
 * unit and the error never adds up.
 * @param {number} total @param {readonly number[]} weights
 */
export function shareOut(total, weights) {
  const whole = sum(weights);
  let soFar = 0;
  let before = 0;
  return weights.map((weight) => {
    soFar += weight;
    const upto = whole ? halfEven(product(total, soFar), whole) : 0;
    const part = upto - before;
    before = upto;
    return part;
  });
}

/**
 * The steps a scale reads in. uoz: of one that reads in ounces, exactly, in millionths of an ounce; its `mg` is that to
 * the nearest whole one.
 * @typedef {{readonly mg: number, readonly uoz?: number | null | undefined}} Division
 */

/** A millionth of an avoirdupois ounce in mg, top and bottom: see bench/whole.py. */
const OUNCE_TOP = 45_359_237;
const OUNCE_BOTTOM = 1_600_000_000;

/** Millionths of an ounce in whole mg. @param {Int} uoz */
export const uozToMg = (uoz) => halfEven(product(uoz, OUNCE_TOP), OUNCE_BOTTOM);

/** The reading a scale of this division shows for a mass, in whole mg. @param {number} mg @param {Division} division */
export function toDivision(mg, { mg: step, uoz }) {
  if (!uoz) return halfEven(mg, step) * step;
  return uozToMg(product(halfEven(product(mg, OUNCE_BOTTOM), product(uoz, OUNCE_TOP)), uoz));
}

/**
 * Orders text as Python does, by code point. UTF-16 alone would put 😀 before ﬁ.
 * @param {string} one @param {string} other
 */
export function byCodePoint(one, other) {
  const shorter = Math.min(one.length, other.length);
  for (let index = 0; index < shorter; index += 1) {
    let a = one.charCodeAt(index);
    let b = other.charCodeAt(index);
    if (a === b) continue;
    // Surrogates stand for what lies above U+FFFF.
    if (a >= 0xd800 && b >= 0xd800) [a, b] = [(a + 0x2000) & 0xffff, (b + 0x2000) & 0xffff];
    return a - b;
  }
  return one.length - other.length;
}

/**
 * The one spelling of a JSON value: sorted keys, no spaces, letters left as they are.
 * @param {unknown} value @returns {string}
 */
export function canonical(value) {
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  if (value === null || typeof value !== "object") return JSON.stringify(value);
  /** @type {string[]} */
  const fields = Object.entries(value)
    .sort(([one], [other]) => byCodePoint(one, other))
    .map(([key, each]) => `${JSON.stringify(key)}:${canonical(each)}`);
  return `{${fields.join(",")}}`;
}

/**
 * A whole number of tenths, hundredths... in decimals: (235, 2) is "2.35".
 * @param {number} shown @param {number} places
 */
function decimals(shown, places) {
  const [units, rest] = divided(Math.abs(shown), 10 ** places);
  const sign = shown < 0 ? "-" : "";
  return places ? `${sign}${units}${point()}${String(rest).padStart(places, "0")}` : `${sign}${units}`;
}

/** How many decimals a step has: 2 of 0.05. @param {number} step */
const placesOf = (step) => (String(step).split(".")[1] ?? "").length;

/** How many decimals a scale shows. @param {Division} division */
export const placesOn = ({ mg, uoz }) => placesOf(uoz ? uoz / 1e6 : mg / 1000);

/** With as many decimals as a division has. @param {number} mg @param {number} divisionMg */
function inGrams(mg, divisionMg) {
  const places = placesOf(divisionMg / 1000);
  return `${decimals(halfEven(mg, 10 ** (3 - places)), places)} g`;
}

/** A mass in tenths, hundredths … of an ounce. @param {number} mg @param {number} places */
const ounces = (mg, places) => halfEven(product(mg, OUNCE_BOTTOM), 10 ** (6 - places) * OUNCE_TOP);

/** @param {number} mg @param {number} places */
export const inOunces = (mg, places) => `${decimals(ounces(mg, places), places)} oz`;

/** From a pound on, "1 lb 3.2 oz"; "" below. @param {number} mg */
export function inPounds(mg) {
  const [pounds, rest] = divided(ounces(Math.abs(mg), 1), 160);
  return pounds === 0
    ? ""
    : `${mg < 0 ? "-" : ""}${pounds} lb${rest ? ` ${noLonger(decimals(rest, 1))} oz` : ""}`;
}

/**
 * What a scale shows, in its own unit with its own decimals, whatever units are asked for elsewhere: 2350 mg at 10 mg
 * is "2.35 g"; 151670 mg at 0.05 oz is "5.35 oz".
 * @param {number} mg @param {Division} division
 */
export const reading = (mg, division) =>
  division.uoz ? inOunces(mg, placesOn(division)) : inGrams(mg, division.mg);

/**
 * A mass that is no scale's reading, in the units that are asked for and about as finely as said, 1, 10, 100 or
 * 1000 mg: "150 g", "5.29 oz", and from a pound on "1 lb 3.2 oz".
 * @param {number} mg @param {number} finenessMg
 */
export function mass(mg, finenessMg) {
  if (units().mass === "g") return inGrams(mg, finenessMg);
  return inPounds(mg) || inOunces(mg, finenessMg >= 100 ? 2 : finenessMg >= 10 ? 3 : 4);
}

/**
 * A share in per cent with one decimal: "33.3 %"; of nothing, "0.0 %".
 * @param {Int} numerator @param {Int} denominator
 */
export function perCent(numerator, denominator) {
  return `${decimals(denominator ? halfEven(product(1000, numerator), denominator) : 0, 1)} %`;
}

/**
 * Two shares, each [numerator, denominator], in per cent with as many decimals as it takes to tell them apart: one
 * to four.
 * @param {readonly [Int, Int]} one @param {readonly [Int, Int]} other
 */
export function apart(one, other) {
  for (const decimals of [1, 2, 3, 4]) {
    const [said, meant] = [one, other].map((each) => shareText(each, decimals));
    if (said !== meant) return [said, meant];
  }
  return [perCent(...one), perCent(...other)];
}

/** @param {readonly [Int, Int]} given @param {number} decimals */
function shareText([numerator, denominator], decimals) {
  const shown = denominator ? halfEven(product(100 * 10 ** decimals, numerator), denominator) : 0;
  const [units, rest] = divided(shown, 10 ** decimals);
  return `${units}${point()}${String(rest).padStart(decimals, "0")} %`;
}

/**
 * A factor with as many decimals as it has, three at most: "1.042", "1.1".
 * @param {Int} numerator @param {Int} denominator
 */
export function times(numerator, denominator) {
  return noLonger(decimals(halfEven(product(1000, numerator), denominator), 3));
}

/**
 * By how much a factor above one is more, in per cent: "20 %", "4.2 %".
 * @param {number} numerator @param {number} denominator
 */
export function moreBy(numerator, denominator) {
  return `${noLonger(decimals(halfEven(product(1000, numerator - denominator), denominator), 1))} %`;
}

/** A number with decimals, without the noughts at its end. @param {string} text */
const noLonger = (text) => text.replace(/[.,]?0+$/, "");

/** @type {[number, string][]} */
const LENGTHS = [
  [3600, "h"],
  [60, "min"],
  [1, "s"],
];

/** A duration in words: "15 s", "2 min 30 s", "6 h 10 min", "2 days". @param {number} ms */
export function span(ms) {
  let [days, seconds] = divided(halfEven(ms, 1000), 86400);
  const parts = days ? [say("span-days", { count: days })] : [];
  for (const [size, unit] of LENGTHS) {
    const [count, rest] = divided(seconds, size);
    seconds = rest;
    if (count) parts.push(`${count} ${unit}`);
  }
  return parts.slice(0, 2).join(" ") || "0 s";
}

/**
 * A temperature, given in thousandths of a degree Celsius, in the units that are asked for: "60 °C", "37.5 °C";
 * "140 °F", whole where it is whole in °C, else to a tenth.
 * @param {number} mk
 */
export function temperature(mk) {
  if (units().warmth === "c") return `${noLonger(decimals(mk, 3))} °C`;
  const places = mk % 1000 ? 1 : 0;
  return `${decimals(halfEven(mk * 9 * 10 ** places, 5000) + 32 * 10 ** places, places)} °F`;
}
