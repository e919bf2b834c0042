/**
 * Quantities as people write them, read exactly: the same chapter as bench/quantities.py.
 *
 *   readAmount("1½ tsp", "us")  ->  {kind: "volume", value: [nL as a fraction], unit: ""}
 *   readDurationMs("6 h 30 min")  ->  23400000
 *
 * A fraction is [numerator, denominator], two BigInts in lowest terms, the lower one positive.
 * What cannot be read throws a BenchError whose `says` names the way out.
 */

import { BenchError } from "./errors.js";
import { say } from "../words.js";
import { halfEven } from "./whole.js";
/** @import { Measures } from "../../bench/shapes/page" */

/**
 * @typedef {readonly [bigint, bigint]} Fraction numerator and denominator
 * @typedef {"mass" | "volume" | "counted" | "parts" | "percent" | "texture"} AmountKind
 * @typedef {{kind: AmountKind, value: Fraction, unit: string}} Amount value: µg, nL, pieces, parts; 3 % is 3/100
 * @typedef {{[measure: string]: Fraction | undefined}} Kitchen nL, by measure
 */

/** @template T @param {string} names @param {T} value @returns {[string, T][]} */
const many = (names, value) => names.split(",").map((name) => [name, value]);

/** @type {(top: bigint, bottom: bigint) => Fraction} */
const of = (top, bottom) => [top, bottom];

const MASS_UG = new Map([
  ...many("g,gs,gm,gms,gram,grams,gramme,grammes", of(1_000_000n, 1n)),
  ...many("kg,kgs,kilo,kilos,kilogram,kilograms", of(1_000_000_000n, 1n)),
  ...many("mg,mgs,milligram,milligrams", of(1000n, 1n)),
  ...many("oz,ozs,ounce,ounces", of(28_349_523_125n, 1000n)),
  ...many("lb,lbs,pound,pounds", of(453_592_370n, 1n)),
]);
// What stands behind it: 8 lb 2 oz.
const OUNCES = new Set(["oz", "ozs", "ounce", "ounces"]);
const GRAMS = new Set(["g", "gs", "gm", "gms", "gram", "grams", "gramme", "grammes"]);
const SMALLER = new Map([
  ...many("lb,lbs,pound,pounds", OUNCES),
  ...many("kg,kgs,kilo,kilos,kilogram,kilograms", GRAMS),
]);
const VOLUME_NL = new Map([
  // cc is the cubic centimetre, a millilitre by another name.
  ...many("ml,mls,cc,millilitre,millilitres,milliliter,milliliters", of(1_000_000n, 1n)),
  ...many("cl,cls,centilitre,centilitres", of(10_000_000n, 1n)),
  ...many("l,litre,litres,liter,liters", of(1_000_000_000n, 1n)),
]);
const KITCHEN = new Map([
  ...many("tsp,tsps,teaspoon,teaspoons", "tsp"),
  ...many("tbsp,tbsps,tablespoon,tablespoons", "tbsp"),
  ...many("cup,cups", "cup"),
  ...many("fl oz,fl ozs,fluid ounce,fluid ounces", "fl oz"),
  ...many("pt,pts,pint,pints", "pint"),
  ...many("qt,qts,quart,quarts", "quart"),
  ...many("gal,gals,gallon,gallons", "gallon"),
]);
/** A thousand of these is past any bench, or no share at all. */
const GREAT = new Set(
  "%,kg,kgs,kilo,kilos,kilogram,kilograms,lb,lbs,pound,pounds,l,litre,litres,liter,liters".split(","),
);
const US_GALLON = 3_785_411_784n; // nL: 231 cubic inches of 2.54 cm
const GALLON = 4_546_090_000n;
/** @type {Kitchen} */
const SPOONS = { tsp: [5_000_000n, 1n], tbsp: [15_000_000n, 1n] };
/** @type {{[M in Measures]: Kitchen}} */
const KITCHEN_NL = {
  us: {
    tsp: [US_GALLON, 768n],
    tbsp: [US_GALLON, 256n],
    cup: [US_GALLON, 16n],
    "fl oz": [US_GALLON, 128n],
    pint: [US_GALLON, 8n],
    quart: [US_GALLON, 4n],
    gallon: [US_GALLON, 1n],
  },
  imperial: {
    ...SPOONS,
    cup: [GALLON, 16n],
    "fl oz": [GALLON, 160n],
    pint: [GALLON, 8n],
    quart: [GALLON, 4n],
    gallon: [GALLON, 1n],
  },
  metric: { ...SPOONS, cup: [240_000_000n, 1n], "fl oz": [30_000_000n, 1n] },
};
const COUNTED = new Map([...many("drop,drops", "drops"), ...many("piece,pieces,pc,pcs", "pieces")]);
/** @type {Map<string, bigint>} */
const TIME_MS = new Map([
  ...many("s,sec,secs,second,seconds", 1000n),
  ...many("min,mins,minute,minutes", 60_000n),
  ...many("h,hr,hrs,hour,hours", 3_600_000n),
  ...many("d,day,days", 86_400_000n),
  ...many("week,weeks", 604_800_000n),
]);
const MOST_UG = 10n ** 13n;
const LONGEST_MS = 366 * 86_400_000;
/** What a drop is taken for, 1/20 mL: a convention, real droppers differ. @type {Fraction} */
export const DROP_NL = [50_000n, 1n];

const FIGURES = String.raw`\p{Nd}{1,9}`;
const AMOUNT = new RegExp(
  `^(?:(?:(${FIGURES})\\s+)?(${FIGURES})\\s*\\/\\s*(${FIGURES})|(${FIGURES}(?:\\.${FIGURES})?))` +
    "\\s*(%|[A-Za-z][A-Za-z .]*)?$",
  "u",
);
const IN_TWO =
  /^(\p{Nd}(?:[\p{Nd}\s./,]*\p{Nd})?)\s*([A-Za-z]+)\.?,?\s+(\p{Nd}(?:[\p{Nd}\s./,]*\p{Nd})?)\s*([A-Za-z]+)\.?$/u;
// Digits that are raised, ringed or stopped: "5² g" would read as 52 g.
const RAISED = /[²³¹⁰⁴-⁹₀-₉①-⑨⑴-⑼⒈-⒐⓪⓵-⓽⓿❶-❾➀-➈➊-➒\u{1F100}-\u{1F10A}]/u;

/** @param {bigint} a @param {bigint} b @type {(a: bigint, b: bigint) => bigint} */
const gcd = (a, b) => (b ? gcd(b, a % b) : a);

/** A fraction in its lowest terms. @param {bigint} top @param {bigint} [bottom] @returns {Fraction} */
export function fraction(top, bottom = 1n) {
  const by = gcd(top < 0n ? -top : top, bottom) || 1n;
  return [top / by, bottom / by];
}
/** @param {Fraction} one @param {Fraction} other */
export const plus = ([a, b], [c, d]) => fraction(a * d + c * b, b * d);
/** @param {Fraction} one @param {Fraction} other */
export const minus = ([a, b], [c, d]) => fraction(a * d - c * b, b * d);
/** @param {Fraction} one @param {Fraction} other */
export const times = ([a, b], [c, d]) => fraction(a * c, b * d);
/** @param {Fraction} one @param {Fraction} other */
export const over = ([a, b], [c, d]) => fraction(a * d, b * c);
/** To the nearest whole Number, halves to the even one. @param {Fraction} given */
export const nearest = ([top, bottom]) => halfEven(top, bottom);
/** @param {Fraction} given @param {bigint} most */
const isMore = ([a, b], most) => a > most * b;

/** @param {string} text */
const cut = (text, most = 40) => [...text].slice(0, most).join("");
/** @param {string} text */
const words = (text) => text.split(/\s+/).filter(Boolean);

/**
 * Digits of any script as 0 to 9: each script's ten begin where the low half of the code is 0, else 6.
 * @param {string} text
 */
const digits = (text) =>
  text.replace(/\p{Nd}/gu, (each) => {
    const code = Number(each.codePointAt(0));
    const low = code % 16;
    return String(low - (/\p{Nd}/u.test(String.fromCodePoint(code - low)) ? 0 : 6));
  });

const SPACED = /(?<![\p{Nd}.,])(\p{Nd}{1,3})((?:[ '’]\p{Nd}{3})+)(?!\p{Nd}|\s*[/\p{Nd}])/gu;
const GROUPED = /(?<![\p{Nd}.,])(\p{Nd}{1,3})((?:,\p{Nd}{3}){2,}|(?:,\p{Nd}{3})+(?=\.\p{Nd}))(?![\p{Nd},])/gu;
const POINTED =
  /(?<![\p{Nd}.,])(\p{Nd}{1,3})((?:\.\p{Nd}{3}){2,}|(?:\.\p{Nd}{3})+(?=,\p{Nd}))(?![\p{Nd}.])/gu;
const COMMA = /(?<![\p{Nd}.,])(\p{Nd}{1,9}),(\p{Nd}{1,9})(?![\p{Nd}.,])/gu;
// One comma or point with three figures behind it: a decimal, or thousands? A point asks only before noughts.
const TWO_WAYS = /^\s*([1-9][0-9]{0,2})(?:,([0-9]{3})|\.(000))(?![\p{Nd}.,])/u;

/**
 * A written number in the one spelling that is read: a decimal point, and thousands together.
 * @param {string} text
 */
export function plainNumber(text) {
  // "1½" would normalise to "11/2": part the digit from the vulgar fraction first.
  let plain = text
    .replace(/([¼-¾⅐-⅞↉])/g, " $1")
    .normalize("NFKC")
    .replaceAll("\u2044", "/")
    .trim();
  for (const grouped of [SPACED, GROUPED, POINTED])
    plain = plain.replace(grouped, (_, first, rest) => first + rest.replace(/[^\p{Nd}]/gu, ""));
  return plain.replace(COMMA, "$1.$2");
}

/** @typedef {"amount" | "share" | "density" | "celsius"} Wanted */

/** @param {string} text @param {string} where @param {Wanted} wanted */
const unread = (text, where, wanted) =>
  new BenchError(where, say(`amounts-unread-${wanted}`, { written: cut(text) }));

/**
 * A written number and the words after it; a fault says what was wanted.
 * @param {string} text @param {string} where @param {Wanted} wanted @returns {[Fraction, string]}
 */
function split(text, where, wanted = "amount") {
  const found = RAISED.test(text) ? null : AMOUNT.exec(plainNumber(text));
  if (!found) throw unread(text, where, wanted);
  const [, whole, top, bottom, decimal, unit] = found.map((each) => each && digits(each));
  const named = words((unit ?? "").replaceAll(".", " ")).join(" ");
  if (decimal) {
    const [units, rest = ""] = decimal.split(".");
    return [fraction(BigInt(units + rest), 10n ** BigInt(rest.length)), named];
  }
  if (BigInt(bottom) === 0n) throw new BenchError(where, say("amounts-by-zero", { written: cut(text) }));
  return [plus(fraction(BigInt(top), BigInt(bottom)), [BigInt(whole ?? 0), 1n]), named];
}

/**
 * A BenchError where "1,000 g" may be one gram or a thousand; so many of a great unit can only be decimals.
 * @param {string} text @param {string} unit @param {string} where
 */
function askWhich(text, unit, where) {
  const [, whole, comma, point] = TWO_WAYS.exec(text) ?? [];
  if (!whole || GREAT.has(unit)) return;
  const part = comma ?? point;
  const decimal = `${whole}.${part}`.replace(/\.?0+$/, "");
  const named = unit && ` ${unit}`;
  const ways = { one: `${decimal}${named}`, other: `${whole}${part}${named}` };
  throw new BenchError(where, say("amounts-two-ways", { written: cut(text.trim()), ...ways }));
}

const DECIMAL = /^[0-9]{1,12}(\.[0-9]{1,6})?$/; // as in bench/money.py

/**
 * Money as it is written, with a decimal point: "12,50" is "12.50", and "1,250" is asked about.
 * @param {string} text @param {string} where
 */
export function decimalMoney(text, where) {
  askWhich(text, "", where);
  const money = plainNumber(text);
  return money && decimal(money, where);
}

/** A decimal as text, "12.50", as it is; a BenchError when it is none. @param {string} text @param {string} where */
export function decimal(text, where) {
  if (!DECIMAL.test(text)) throw new BenchError(where, say("money-unread"));
  return text;
}

/** No fixed amount, as makers and the format write it; the same as in bench/quantities.py. */
const AS_NEEDED = ["to texture", "as needed", "q.s.", "nach bedarf"];

/** @param {string} text */
export const isAsNeeded = (text) => AS_NEEDED.includes(text.trim().toLowerCase());

/**
 * Read "240 g", "8 1/2 oz", "8 lb 2 oz", "1½ tsp", "2 parts", "3 %", "1,5 g", "12 drops" or "as needed" (AS_NEEDED).
 *
 * @param {string} text @param {Measures | null} measures null when not said @param {string} [where]
 * @returns {Amount}
 */
export function readAmount(text, measures, where = "amount") {
  if (isAsNeeded(text)) return { kind: "texture", value: [0n, 1n], unit: "" };
  const halves = inTwo(text);
  if (halves) {
    const [great, small] = halves.map((half) => readAmount(half, measures, where).value);
    return { kind: "mass", value: bounded(plus(great, small), text, where), unit: "" };
  }
  const [number, written] = split(text, where);
  if (number[0] <= 0n) {
    throw new BenchError(where, say("amounts-zero", { written: cut(text) }));
  }
  // A capital once told the tablespoon from the teaspoon: too easily misread.
  const unit = written === "T" ? written : written.toLowerCase();
  askWhich(text, unit, where);
  if (unit === "%") return { kind: "percent", value: over(number, [100n, 1n]), unit: "" };
  if (unit === "part" || unit === "parts") return { kind: "parts", value: number, unit: "" };
  if (COUNTED.has(unit)) return { kind: "counted", value: number, unit: String(COUNTED.get(unit)) };
  const mass = MASS_UG.get(unit) ?? null;
  const volume = VOLUME_NL.get(unit) ?? (KITCHEN.has(unit) ? kitchenNl(unit, measures, where) : null);
  const by = mass ?? volume;
  if (by) {
    return { kind: mass ? "mass" : "volume", value: bounded(times(number, by), text, where), unit: "" };
  }
  if (!unit) throw new BenchError(where, say("amounts-no-unit", { written: cut(text) }));
  throw new BenchError(where, say("amounts-unknown-unit", { unit: cut(unit, 20) }));
}

/** "8 lb 2 oz" and "1 kg 200 g" in their two halves; null for all else. @param {string} text */
function inTwo(text) {
  const found = RAISED.test(text) ? null : IN_TWO.exec(plainNumber(text));
  if (!found) return null;
  const [, first, great, second, small] = found;
  const wanted = SMALLER.get(great.toLowerCase());
  return wanted?.has(small.toLowerCase()) ? [`${first} ${great}`, `${second} ${small}`] : null;
}

/** @param {Fraction} value @param {string} text @param {string} where */
function bounded(value, text, where) {
  if (isMore(value, MOST_UG)) throw new BenchError(where, say("amounts-too-much", { written: cut(text) }));
  if (value[0] < value[1]) throw new BenchError(where, say("amounts-too-little", { written: cut(text) }));
  return value;
}

/** @param {string} unit @param {Measures | null} measures @param {string} where */
function kitchenNl(unit, measures, where) {
  const measure = String(KITCHEN.get(unit));
  if (!measures) {
    throw new BenchError(where, say("amounts-whose-measure", { measure }));
  }
  const nl = KITCHEN_NL[measures][measure];
  if (!nl) throw new BenchError(where, say("amounts-no-such-measure", { measure, measures }));
  return nl;
}

/** A written mass in whole mg. @param {string} text */
export function readMassMg(text, where = "mass") {
  const { kind, value } = readAmount(text, null, where);
  if (kind !== "mass") throw new BenchError(where, say("amounts-not-a-mass", { written: cut(text) }));
  return nearest(over(value, [1000n, 1n]));
}

/** A written percentage up to 100 % in whole parts per million. "0 %" is allowed. @param {string} text */
export function readPpm(text, where = "share") {
  const [number, unit] = split(text, where, "share");
  const ppm = nearest(times(number, [10_000n, 1n]));
  if (unit !== "%" || ppm > 1_000_000) throw unread(text, where, "share");
  return ppm;
}

/** "15 s", "4 min", "6 h 30 min" or "2 days" in whole ms; above nought, at most a year. @param {string} text */
export function readDurationMs(text, where = "time") {
  const pieces = [...text.matchAll(/([\p{Nd}.,/½¼¾\s]*[\p{Nd}½¼¾])\s*([A-Za-z]+)/gu)];
  const told = pieces.map(([, number, unit]) => number + unit).join("");
  if (pieces.length === 0 || words(told).join("") !== words(text).join("")) {
    throw new BenchError(where, say("amounts-not-a-time", { written: cut(text) }));
  }
  /** @type {Fraction} */
  let total = [0n, 1n];
  for (const [, number, unit] of pieces) {
    const each = TIME_MS.get(unit.toLowerCase());
    if (!each) throw new BenchError(where, say("amounts-unknown-time", { unit: cut(unit, 20) }));
    total = plus(total, times(split(number, where)[0], [each, 1n]));
  }
  const ms = nearest(total);
  if (ms <= 0) throw new BenchError(where, say("amounts-no-time", { written: cut(text) }));
  if (ms > LONGEST_MS) throw new BenchError(where, say("amounts-over-a-year", { written: cut(text) }));
  return ms;
}

/** A density in g/mL (the same as µg/nL) between 0.05 and 25, as a fraction. @param {string} text */
export function readDensity(text, where = "density") {
  const [number, unit] = split(text, where, "density");
  if (unit || number[0] * 20n < number[1] || isMore(number, 25n)) {
    throw unread(text, where, "density");
  }
  return number;
}

/** A temperature from 0 to 250 °C in whole thousandths of a degree. @param {string} text */
export function readCelsiusMk(text, where = "temperature") {
  const [number, unit] = split(text, where, "celsius");
  if (unit || isMore(number, 250n)) throw unread(text, where, "celsius");
  return nearest(times(number, [1000n, 1n]));
}
