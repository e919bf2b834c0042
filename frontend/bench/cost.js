/**
 * What a batch cost: the same as bench/cost.py, which says what each field holds.
 *
 * Amounts are decimals as text, exact fractions [numerator, denominator] of BigInts in between, and
 * never a float. Several currencies are never added.
 */

import { BenchError } from "./errors.js";
import { say } from "../words.js";
/** @import { Cost, CostParts, CostRow, CostSettings, CostTotal } from "../../bench/shapes/page" */
/** @import { Record as BatchRecord, SalePrice, Shelf, ShelfLot, Unpriced } from "../../bench/shapes/page" */

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
  const { materials, unpriced } = rowsOf(record, shelf, settings, placesOf);
  /** @type {{[currency: string]: CostTotal}} */
  const totals = {};
  for (const currency of new Set([settings.currency, ...materials.map((row) => row.currency)])) {
    const parts = partsOf(record, materials, settings, currency);
    totals[currency] = total(parts, record, settings, currency, placesOf(currency));
  }
  return { materials, unpriced, hands_ms: record.hands.ms, good: record.yield.good, totals };
}

/**
 * What was used, by lot where it has a price; the rest has none. See bench/cost.py.
 * @param {BatchRecord} record @param {Shelf} shelf @param {CostSettings} settings
 * @param {(currency: string) => number} placesOf
 */
function rowsOf(record, shelf, settings, placesOf) {
  /** @type {CostRow[]} */
  const materials = [];
  /** @type {Unpriced[]} */
  const unpriced = [];
  for (const { lot: id, names, wrap, mg, count } of record.lots) {
    const lot = Object.hasOwn(shelf.lots, id) ? shelf.lots[id] : null;
    const price = lot && paid(lot, { mg, count }, Boolean(settings.without_tax));
    if (!lot?.price || !price) {
      unpriced.push({ lot: id, names, mg });
      continue;
    }
    const { currency } = lot.price;
    const row = moneyText(price, placesOf(currency) + FINER);
    materials.push({ lot: id, number: lot.number, names, wrap, mg, count, currency, cost: row });
  }
  const lotted = new Set(record.lots.flatMap(({ names }) => names));
  const reckoned = new Set(record.lots.flatMap(({ names, mg, count }) => (mg || count ? names : [])));
  /** @type {Map<string, number>} */
  const bare = new Map();
  for (const { name, asked_mg: asked, actual_mg: mg, status } of record.lines) {
    const wentIn = asked === null && (status === "in" || status === "by_hand");
    const unweighed = wentIn && !mg && !reckoned.has(name) && !settings.sprays_cost;
    if (unweighed || (mg && !lotted.has(name))) bare.set(name, (bare.get(name) ?? 0) + mg);
  }
  for (const [name, mg] of bare) unpriced.push({ lot: null, names: [name], mg });
  return { materials, unpriced };
}

/**
 * What the used part of a lot cost with its delivery; null when it has no price or was received as nothing.
 * @param {ShelfLot} lot @param {{mg: number, count: number}} use @param {boolean} withoutTax
 */
function paid({ price, mg, count }, use, withoutTax) {
  const [received, used] = count === null ? [mg ?? 0, use.mg] : [count, use.count];
  if (price === null || !received) return null;
  let amount = plus(readMoney(price.amount, "price"), readMoney(price.delivery ?? "0", "price"));
  if (price.tax) {
    const [top, bottom] = plus(whole(1), times(readMoney(price.tax.percent, "price"), [1n, 100n]));
    if (price.tax.included && withoutTax) amount = times(amount, [bottom, top]);
    if (!price.tax.included && !withoutTax) amount = times(amount, [top, bottom]);
  }
  return times(amount, [BigInt(used), BigInt(received)]);
}

/** @typedef {"hourly_rate" | "wrap_cost" | "packaging_cost" | "sprays_cost" | "overhead_cost" | "fee_each"} Sum */
/** @typedef {"margin_percent" | "fee_percent" | "tax_percent"} Share */

/** @param {CostSettings} settings @param {Sum | Share} key */
const said = (settings, key) => readMoney(settings[key] || "0", key);
/** @param {CostSettings} settings @param {Share} key */
const shareSaid = (settings, key) => times(said(settings, key), [1n, 100n]);
/** @param {readonly CostRow[]} rows */
const summed = (rows) => rows.map((row) => readMoney(row.cost)).reduce(plus, whole(0));

/**
 * What a batch cost in one currency, part by part, exactly. What settings say is in the maker's own.
 * @param {BatchRecord} record @param {readonly CostRow[]} materials @param {CostSettings} settings
 * @param {string} currency @returns {{[part in keyof CostParts]: Amounts}}
 */
function partsOf(record, materials, settings, currency) {
  const rows = materials.filter((row) => row.currency === currency);
  /** @param {Sum} key */
  const mine = (key) => (currency === settings.currency ? said(settings, key) : whole(0));
  const pieces = whole((record.yield.good ?? 0) + (record.yield.kept ?? 0));
  const hourly = mine("hourly_rate");
  const eachWrap = materials.some(({ wrap }) => wrap) ? whole(0) : mine("wrap_cost");
  return {
    materials: summed(rows.filter(({ wrap }) => !wrap)),
    sprays: mine("sprays_cost"),
    hands: times(hourly, [BigInt(record.hands.ms), HOUR_MS]),
    cleaning: times(hourly, [BigInt(settings.cleaning_minutes ?? 0), 60n]),
    labelling: times(times(hourly, pieces), [BigInt(settings.labelling_seconds ?? 0), 3600n]),
    wrap: plus(summed(rows.filter(({ wrap }) => wrap)), times(eachWrap, pieces)),
    packaging: times(mine("packaging_cost"), pieces),
    overhead: mine("overhead_cost"),
  };
}

/**
 * @param {{[part in keyof CostParts]: Amounts}} parts @param {BatchRecord} record @param {CostSettings} settings
 * @param {string} currency @param {number} places @returns {CostTotal}
 */
function total(parts, { balance, yield: made }, settings, currency, places) {
  /** @param {keyof CostParts} part */
  const show = (part) => moneyText(parts[part], places);
  /** @type {CostParts} */
  const shown = {
    materials: show("materials"),
    sprays: show("sprays"),
    hands: show("hands"),
    cleaning: show("cleaning"),
    labelling: show("labelling"),
    wrap: show("wrap"),
    packaging: show("packaging"),
    overhead: show("overhead"),
  };
  const all = Object.values(shown)
    .map((part) => readMoney(part))
    .reduce(plus);
  const { good, kept } = made;
  const each = good ? times(all, [1n, BigInt(good)]) : null;
  const known = balance !== null && balance.in_mg > 0 ? balance : null;
  /** @param {number} mg @param {number} inMg */
  const shareOf = (mg, inMg) => moneyText(times(parts.materials, [BigInt(mg), BigInt(inMg)]), places);
  return {
    ...shown,
    total: moneyText(all, places),
    lost: known ? shareOf(known.unaccounted_mg + known.left_mg, known.in_mg) : null,
    spoiled: known ? shareOf(known.spoiled_mg, known.in_mg) : null,
    kept: kept ? moneyText(times(all, [BigInt(kept), BigInt((good ?? 0) + kept)]), places) : null,
    sale: each && currency === settings.currency ? salePrice(each, settings, places) : null,
    per_piece: each && moneyText(each, places),
  };
}

/** @param {Amounts} one @param {Amounts} other @returns {Amounts} */
const less = (one, [top, bottom]) => plus(one, [-top, bottom]);

/**
 * The least price of a piece that leaves the margin, once cost, fees and tax are paid; see bench/cost.py.
 * @param {Amounts} each @param {CostSettings} settings @param {number} places @returns {SalePrice | null}
 */
export function salePrice(each, settings, places) {
  if (!settings.margin_percent) return null;
  const fee = shareSaid(settings, "fee_percent");
  const [top, bottom] = plus(whole(1), shareSaid(settings, "tax_percent"));
  const costShown = moneyText(each, places);
  const feeEach = said(settings, "fee_each");
  const stays = less(times(less(whole(1), shareSaid(settings, "margin_percent")), [bottom, top]), fee);
  if (stays[0] <= 0n) return null;
  const [units, of] = times(times(plus(each, feeEach), [10n ** BigInt(places), 1n]), [stays[1], stays[0]]);
  /** @type {Amounts} */
  const price = [(units + of - 1n) / of, 10n ** BigInt(places)];
  const tax = moneyText(less(price, times(price, [bottom, top])), places);
  const fees = moneyText(plus(times(price, fee), feeEach), places);
  const left = [tax, fees, costShown].reduce((rest, part) => less(rest, readMoney(part)), price);
  return { price: moneyText(price, places), tax, fees, cost: costShown, margin: moneyText(left, places) };
}
