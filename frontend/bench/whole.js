/**
 * Whole numbers: the one place where anything is rounded. The same rules as bench/whole.py.
 *
 * Masses are whole milligrams, instants and durations whole milliseconds, fractions whole parts
 * per million. What goes in and comes out is a Number that holds its whole number exactly; a
 * product that may pass 2^53 on the way is a BigInt (see `product`).
 */

export const PPM = 1_000_000;

/** Below this a sum or difference of two Numbers is still exact. */
const PLAIN = 2 ** 52;

/** a × b, exactly: a Number where it can hold it, else a BigInt. They compare with one another. */
export function product(a, b) {
  const made = typeof a === "number" && typeof b === "number" ? a * b : NaN;
  return Number.isSafeInteger(made) ? made : BigInt(a) * BigInt(b);
}

/** Both as BigInt, or both as they were when plain Numbers do. */
function exact(numerator, denominator) {
  const plain =
    typeof numerator === "number" &&
    typeof denominator === "number" &&
    Math.abs(numerator) < PLAIN &&
    denominator < PLAIN / 2;
  return plain ? [numerator, denominator, 1, 0] : [BigInt(numerator), BigInt(denominator), 1n, 0n];
}

/** The whole quotient, rounded down, and what remains (never negative). */
export function divided(numerator, denominator) {
  const [top, bottom] = exact(numerator, denominator);
  let rest = top % bottom;
  if (rest < 0) rest += bottom;
  return [Number((top - rest) / bottom), Number(rest)];
}

/** numerator / denominator to the nearest whole number, halves to the even one. The denominator is positive. */
export function halfEven(numerator, denominator) {
  const [top, bottom, one, nought] = exact(numerator, denominator);
  let rest = top % bottom;
  if (rest < nought) rest += bottom;
  const down = (top - rest) / bottom;
  const twice = rest + rest;
  const up = twice > bottom || (twice === bottom && down % (one + one) !== nought);
  return Number(up ? down + one : down);
}

/** numerator / denominator, rounded up. The denominator is positive. */
export function ceiling(numerator, denominator) {
  return 0 - divided(-numerator, denominator)[0];
}

export function sum(numbers) {
  return numbers.reduce((total, each) => total + each, 0);
}

/**
 * Divides `total` in proportion to `weights`, whole parts that sum to it exactly.
 *
 * Each part is the difference of two rounded running sums, so no part is off by more than one
 * unit and the error never adds up.
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

/** The reading a scale of this division shows for a mass: mg, a multiple of divisionMg. */
export function toDivision(mg, divisionMg) {
  return halfEven(mg, divisionMg) * divisionMg;
}

/** Orders text as Python does, by code point. UTF-16 alone would put 😀 before ﬁ. */
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

/** The one spelling of a JSON value: sorted keys, no spaces, letters left as they are. */
export function canonical(value) {
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  if (value === null || typeof value !== "object") return JSON.stringify(value);
  const fields = Object.keys(value)
    .sort(byCodePoint)
    .map((key) => `${JSON.stringify(key)}:${canonical(value[key])}`);
  return `{${fields.join(",")}}`;
}

/** A whole number of tenths, hundredths... in decimals: (235, 2) is "2.35". */
function decimals(shown, places) {
  const [units, rest] = divided(Math.abs(shown), 10 ** places);
  const sign = shown < 0 ? "-" : "";
  return places ? `${sign}${units}.${String(rest).padStart(places, "0")}` : `${sign}${units}`;
}

/** A mass in grams with as many decimals as the scale shows: 2350 mg at 10 mg is "2.35 g". */
export function grams(mg, divisionMg) {
  let places = 0;
  let step = 1000;
  while (step > 1 && divisionMg % step) {
    step /= 10;
    places += 1;
  }
  return `${decimals(halfEven(mg, step), places)} g`;
}

/** A share in per cent with one decimal: "33.3 %"; of nothing, "0.0 %". */
export function perCent(numerator, denominator) {
  return `${decimals(denominator ? halfEven(product(1000, numerator), denominator) : 0, 1)} %`;
}

/** Two shares, each [numerator, denominator], in per cent with as many decimals as it takes to tell them apart: one to four. */
export function apart(one, other) {
  for (const decimals of [1, 2, 3, 4]) {
    const [said, meant] = [one, other].map((each) => shareText(each, decimals));
    if (said !== meant) return [said, meant];
  }
  return [perCent(...one), perCent(...other)];
}

function shareText([numerator, denominator], decimals) {
  const shown = denominator ? halfEven(product(100 * 10 ** decimals, numerator), denominator) : 0;
  const [units, rest] = divided(shown, 10 ** decimals);
  return `${units}.${String(rest).padStart(decimals, "0")} %`;
}

/** A factor with three decimals: "1.042". */
export function times(numerator, denominator) {
  return decimals(halfEven(product(1000, numerator), denominator), 3);
}

const LENGTHS = [
  [86400, "day", "days"],
  [3600, "h", "h"],
  [60, "min", "min"],
  [1, "s", "s"],
];

/** A duration in words: "15 s", "2 min 30 s", "6 h 10 min", "2 days". */
export function span(ms) {
  let seconds = halfEven(ms, 1000);
  const parts = [];
  for (const [size, one, many] of LENGTHS) {
    const [count, rest] = divided(seconds, size);
    seconds = rest;
    if (count) parts.push(`${count} ${count === 1 ? one : many}`);
  }
  return parts.slice(0, 2).join(" ") || "0 s";
}

/** A temperature, given in thousandths of a degree, in words: "60 °C", "37.5 °C". */
export function celsius(mk) {
  return `${mk / 1000} °C`;
}
