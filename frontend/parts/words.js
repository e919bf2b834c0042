// How the page says times and masses, as its language and the phone's region have it. Every function takes the
// instant it speaks of.
// Masses are whole milligrams, durations and instants whole milliseconds.

import { pieceWord } from "../bench/sheet-words.js";
import { readsIn } from "../bench/weighing.js";
import { inOunces, inPounds, reading } from "../bench/whole.js";
import { locale, point, shown, units } from "../words.js";
/** @import { PieceWords } from "../../bench/shapes/page" */

/** @typedef {Parameters<typeof readsIn>[0] | null | undefined} On the scale that a mass was weighed on */

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
/** A copy is made every night; one this old says that something is wrong. */
export const COPY_OLD_MS = 48 * HOUR;
/** @param {number} n */
const two = (n) => String(n).padStart(2, "0");

/** Time left as digits: "9:05", and from one hour up "3 h 41", which changes once a minute. @param {number} ms */
export function timeLeft(ms) {
  const size = Math.abs(ms);
  const sign = ms < 0 ? "+" : "";
  if (size >= 24 * HOUR)
    return `${sign}${Math.floor(size / (24 * HOUR))} d ${Math.floor((size % (24 * HOUR)) / HOUR)} h`;
  if (size >= HOUR) return `${sign}${Math.floor(size / HOUR)} h ${two(Math.floor((size % HOUR) / MINUTE))}`;
  const seconds = ms < 0 ? Math.floor(size / 1000) : Math.ceil(size / 1000);
  if (seconds === 3600) return `${sign}1 h 00`;
  return `${sign}${Math.floor(seconds / 60)}:${two(seconds % 60)}`;
}

/** A duration in words: "45 s", "15 min", "1 h 30 min". @param {number} ms */
export function duration(ms) {
  const seconds = Math.round(ms / 1000);
  if (seconds < 120 && seconds % 60) return `${seconds} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  const rest = minutes % 60;
  return rest ? `${Math.floor(minutes / 60)} h ${rest} min` : `${minutes / 60} h`;
}

/** @type {{[how: string]: Intl.DateTimeFormatOptions}} */
const DATES = {
  clock: { timeStyle: "short" },
  day: { day: "numeric", month: "short", year: "numeric" },
  weekday: { weekday: "long" },
  soon: { weekday: "short", day: "numeric", month: "short" },
  shortWeekday: { weekday: "short", day: "numeric" },
};
/** To make one takes longer than to use it a hundred times. @type {Map<string, Intl.DateTimeFormat>} */
const formats = new Map();

/** A date or a part of one, in the phone's own zone. @param {keyof typeof DATES} how @param {number} at */
export function dated(how, at) {
  const tag = `${how} ${locale()} ${new Date(at).getTimezoneOffset()}`;
  const format = formats.get(tag) ?? new Intl.DateTimeFormat(locale(), DATES[how]);
  formats.set(tag, format);
  return format.format(at);
}

/**
 * What a browser takes long over when it is first asked, in pieces: to sort names, to say numbers, and dates.
 * @returns {Generator<void>}
 */
export function* readied() {
  "a".localeCompare("b");
  yield;
  new Intl.NumberFormat(locale());
  yield;
  clock(0);
}

/** Clock time of an instant: "14:05", "2:05 pm". @param {number} at */
export const clock = (at) => dated("clock", at);

/** "25 Nov 2026". @param {number} at */
export const dayOnly = (at) => dated("day", at);

/** Day and clock time: "25 Nov 2026, 14:05". @param {number} at */
export function day(at) {
  return `${dayOnly(at)}, ${clock(at)}`;
}

/** An instant of the days to come: "Sat 5 Dec, 9:00". @param {number} at */
export const soon = (at) => `${dated("soon", at)}, ${clock(at)}`;

/** "14 bars", "1 bar". @param {number} count @param {PieceWords} piece */
export function pieces(count, piece) {
  return `${count} ${pieceWord(piece, count)}`;
}

/** Whether no scale says which units, and ounces are asked for. @param {On} scale */
const isInOunces = (scale) => !scale && units().mass === "oz";

/**
 * A mass to read at a glance, as the scale reads that it was weighed on, else as is asked for: three figures or whole
 * grams. "2340 g", "18.0 g", "0.45 g", "0.630 oz", "5 lb 2.5 oz".
 * @param {number} mg @param {On} [scale]
 */
export function about(mg, scale) {
  if (scale?.division_uoz || isInOunces(scale))
    return (!scale && inPounds(mg)) || inOunces(mg, Math.abs(mg) < 28350 ? 3 : 2);
  const grams = mg / 1000;
  const size = Math.abs(grams);
  if (size >= 100 || size === 0) return `${shown(Math.round(grams))} g`;
  return `${grams.toFixed(size >= 10 ? 1 : 2).replace(".", point())} g`;
}

/**
 * A mass as a scale of ounces read it, "5.35 oz"; else without trailing noughts: to the milligram, "2340 g", "0.45 g",
 * or to the thousandth of an ounce.
 * @param {number} mg @param {On} [scale]
 */
export function exactly(mg, scale) {
  if (scale?.division_uoz) return reading(mg, readsIn(scale)).replace("-", "\u2212");
  if (isInOunces(scale))
    return (inPounds(mg) || inOunces(mg, 3).replace(/[.,]?0+(?= )/, "")).replace("-", "\u2212");
  const size = Math.abs(mg);
  const whole = Math.floor(size / 1000);
  const rest = String(size % 1000)
    .padStart(3, "0")
    .replace(/0+$/, "");
  const digits = rest ? `${shown(whole)}${point()}${rest}` : shown(whole);
  return `${mg < 0 ? "\u2212" : ""}${digits} g`;
}

/**
 * An id that the recipe format takes, from a name, unlike the others.
 * @param {string} name @param {Set<string>} taken
 */
export function idFor(name, taken) {
  const stem =
    name
      .toLowerCase()
      .normalize("NFKD")
      .replace(/[^a-z0-9]+/g, "_")
      .replace(/^[^a-z]+|_+$/g, "")
      .slice(0, 36) || "thing";
  let id = stem;
  for (let n = 2; taken.has(id); n += 1) id = `${stem}_${n}`;
  taken.add(id);
  return id;
}

/**
 * The same words with every number kept on one line with its unit, and with the sign before it.
 * @param {string | null | undefined} text
 */
export function unbroken(text) {
  return (text ?? "")
    .replace(/([×+\u2212]) (?=\d)/g, "$1\u00a0")
    .replace(/(\d) (?=(?:m?g|kg|oz|lb|mL|L|s|min|h|°[CF]|%)(?![\w]))/g, "$1\u00a0");
}
