/**
 * What a batch cost: the same as bench/cost.py, which says what each field holds.
 *
 * Amounts are decimals as text, exact fractions [numerator, denominator] of BigInts in between, and
 * never a float. Several currencies are never added.
 */

import { BenchError } from "./errors.js";
import { say } from "../words.js";
/** @import { Balance, Cost, CostRow, CostSettings, CostTotal } from "../../bench/shapes/page" */
/** @import { Record as BatchRecord, Shelf, ShelfLot, Unpriced } from "../../bench/shapes/page" */

const FINER = 2; // decimals more than a currency's own, for rows
const HOUR_MS = 3_600_000n;
const DECIMAL = /^([0-9]{1,12})(?:\.([0-9]{1,6}))?$/;

/** @typedef {readonly [bigint, bigint]} Amounts numerator and denominator */

/** @param {Amounts} one @param {Amounts} other @returns {Amounts} */
const times = ([a, b], [c, d]) => [a * c, b * d];
/** @param {Amounts} one @param {Amounts} other @returns {Amounts} */
const plus = ([a, b], [c, d]) => [a * d + c * b, b * d];
/** @param {number} number @returns {Amounts} */
const whole = (number) => [BigInt(number), 1n];

/**
 * A decimal as text, "12.50", exactly; a BenchError when it is not one.
 * @param {unknown} written @param {string} [where] @returns {Amounts}
 */
export function readMoney(written, where = "") {
  const found = typeof written === "string" && DECIMAL.exec(written);
  if (!found) throw new BenchError(where, say("money-unread"));
  const [, units, rest = ""] = found;
  return [BigInt(units + rest), 10n ** BigInt(rest.length)];
}

/**
 * An amount with so many decimals, half to even: 1/8 with two is "0.12".
 * @param {Amounts} amount @param {number} places
 */
export function moneyText([top, bottom], places) {
  const scaled = (top < 0n ? -top : top) * 10n ** BigInt(places);
  const down = scaled / bottom;
  const twice = 2n * (scaled % bottom);
  const shown = twice > bottom || (twice === bottom && down % 2n) ? down + 1n : down;
  const digits = String(shown).padStart(places + 1, "0");
  const cut = digits.length - places;
  return `${top < 0n && shown ? "-" : ""}${digits.slice(0, cut)}${places ? `.${digits.slice(cut)}` : ""}`;
}

/**
 * What a recorded batch cost.
 * @param {BatchRecord} record @param {Shelf} shelf @param {CostSettings} settings
 * @param {{[currency: string]: number | undefined}} places @returns {Cost}
 */
export function cost(record, shelf, settings, places) {
  const placesOf = (/** @type {string} */ currency) => places[currency] ?? 2;
  /** @type {Map<string, Amounts>} */
  const sums = new Map();
  /** @type {CostRow[]} */
  const materials = [];
  /** @type {Unpriced[]} */
  const unpriced = [];
  /** @type {Set<string>} */
  const lotted = new Set();
  for (const { lot: id, names, mg, count } of record.lots) {
    for (const each of names) lotted.add(each);
    const lot = Object.hasOwn(shelf.lots, id) ? shelf.lots[id] : null;
    const price = lot && paid(lot, { mg, count }, Boolean(settings.without_tax));
    if (!lot?.price || !price) {
      unpriced.push({ lot: id, names, mg });
      continue;
    }
    const { currency } = lot.price;
    const row = moneyText(price, placesOf(currency) + FINER);
    sums.set(currency, plus(sums.get(currency) ?? whole(0), readMoney(row)));
    materials.push({ lot: id, number: lot.number, names, mg, count, currency, cost: row });
  }
  /** @type {Map<string, number>} */
  const bare = new Map();
  for (const { name, actual_mg } of record.lines) {
    if (!lotted.has(name) && actual_mg) bare.set(name, (bare.get(name) ?? 0) + actual_mg);
  }
  for (const [name, mg] of bare) unpriced.push({ lot: null, names: [name], mg });
  const own = settings.currency;
  const { good } = record.yield;
  const hourly = readMoney(settings.hourly_rate || "0", "hourly_rate");
  const wrap = times(readMoney(settings.wrap_cost || "0", "wrap_cost"), whole(good ?? 0));
  /** @type {Amounts} */
  const hands = times(hourly, [BigInt(record.hands.ms), HOUR_MS]);
  /** @type {{[currency: string]: CostTotal}} */
  const totals = {};
  for (const currency of new Set([own, ...sums.keys()])) {
    const mine = currency === own;
    const parts = [sums.get(currency) ?? whole(0), mine ? hands : whole(0), mine ? wrap : whole(0)];
    totals[currency] = total(parts, record.balance, good, placesOf(currency));
  }
  return { materials, unpriced, hands_ms: record.hands.ms, good, totals };
}

/**
 * What the used part of a lot cost; null when it has no price or was received as nothing.
 * @param {ShelfLot} lot @param {{mg: number, count: number}} use @param {boolean} withoutTax
 */
function paid({ price, mg, count }, use, withoutTax) {
  const [received, used] = count === null ? [mg ?? 0, use.mg] : [count, use.count];
  if (price === null || !received) return null;
  let amount = readMoney(price.amount, "price");
  if (price.tax) {
    const [top, bottom] = plus(whole(1), times(readMoney(price.tax.percent, "price"), [1n, 100n]));
    if (price.tax.included && withoutTax) amount = times(amount, [bottom, top]);
    if (!price.tax.included && !withoutTax) amount = times(amount, [top, bottom]);
  }
  return times(amount, [BigInt(used), BigInt(received)]);
}

/**
 * @param {Amounts[]} parts @param {Balance | null} balance @param {number | null} good @param {number} places
 * @returns {CostTotal}
 */
function total(parts, balance, good, places) {
  const [materials, hands, wrap] = parts.map((each) => moneyText(each, places));
  const all = [materials, hands, wrap].map((each) => readMoney(each)).reduce(plus);
  const known = balance !== null && balance.in_mg > 0 ? balance : null;
  /** @param {number} mg @param {number} inMg */
  const shareOf = (mg, inMg) => moneyText(times(parts[0], [BigInt(mg), BigInt(inMg)]), places);
  return {
    materials,
    hands,
    wrap,
    total: moneyText(all, places),
    lost: known ? shareOf(known.unaccounted_mg + known.left_mg, known.in_mg) : null,
    spoiled: known ? shareOf(known.spoiled_mg, known.in_mg) : null,
    per_piece: good ? moneyText(times(all, [1n, BigInt(good)]), places) : null,
  };
}
