/**
 * Lots: which to take, and how much of each a run really used. The same as bench/lots.py.
 *
 * Masses are whole mg; a lot that is counted (sticks, wrappers) is reckoned in pieces the same way.
 */

import { toldOf } from "./journal/index.js";
import { full, last } from "./lists.js";
/** @import { Entry, LotOffered, LotUse, Pick as PickedLots, Picked, Sheet, State } from "../../bench/shapes/page" */
/** @import { Draft } from "../../types/bench" */
/** @import { Full } from "../../types/lists" */

const WRAP = "wrap"; // what pieces are wrapped in: gathered like an ingredient, though no sheet lists it

/** Whether a lot is past its date; on the day itself it is not. @param {string | null} bestBefore @param {string} on */
export const isPast = (bestBefore, on) => bestBefore !== null && bestBefore < on;

/**
 * Orders by the keys that `turn` gives: booleans, numbers or ASCII text.
 * @template T @param {(one: T) => (boolean | number | string)[]} turn @returns {(one: T, other: T) => number}
 */
function by(turn) {
  return (one, other) => {
    const [these, those] = [turn(one), turn(other)];
    const place = these.findIndex((each, index) => each !== those[index]);
    return place < 0 ? 0 : these[place] < those[place] ? -1 : 1;
  };
}

/**
 * Which lots to take for a need, the oldest best-before first.
 * @param {number} need @param {readonly LotOffered[]} lots @param {string} on @param {boolean} [pastToo]
 * @returns {PickedLots}
 */
export function pick(need, lots, on, pastToo = false) {
  /** @type {{picked: Picked[], short: number, passed_over: string[], barred: string[]}} */
  const told = { picked: [], short: need, passed_over: [], barred: [] };
  /** @type {(one: LotOffered, other: LotOffered) => number} */
  const order = by(({ lot, best_before, received_on }) => [
    isPast(best_before, on),
    best_before === null,
    best_before ?? "",
    received_on,
    lot,
  ]);
  for (const { lot, left, best_before, barred } of lots.filter((each) => each.left > 0).sort(order)) {
    const past = isPast(best_before, on);
    if (barred) told.barred.push(lot);
    else if (past && !pastToo) told.passed_over.push(lot);
    else if (told.short > 0) {
      const take = Math.min(told.short, left);
      told.picked.push({ lot, take, past });
      told.short -= take;
    }
  }
  return told;
}

/** @template K @param {Map<K, number>} map @param {K} key @param {number} more */
const add = (map, key, more) => map.set(key, (map.get(key) ?? 0) + more);

/**
 * What a run really used of each lot gathered for it; see bench/lots.py.
 * @param {Sheet} sheet @param {State} state @param {readonly Entry[]} entries @returns {{[lot: string]: LotUse}}
 */
export function useOf(sheet, state, entries) {
  const wanted = new Map(sheet.ingredients.map(({ id, mg }) => [id, mg]));
  const ingredientOf = new Map(sheet.lines.map(({ id, ingredient }) => [id, ingredient]));
  /** @type {Map<string, number>} */
  const weighed = new Map();
  /** @type {Map<string, number>} */
  const counted = new Map();
  for (const line of sheet.lines) {
    const { in_mg, status } = state.lines[line.id];
    add(weighed, line.ingredient, in_mg);
    if (line.unit === "pieces" && status === "in") add(counted, line.ingredient, line.count ?? 0);
  }
  const unread = new Set(state.unread);
  /** @type {Map<string | undefined, number>} */
  const lastAt = new Map();
  for (const { id, at, kind, body } of toldOf(state, entries)) {
    if ((kind === "weighed" || kind === "taken_out") && !unread.has(id))
      lastAt.set(ingredientOf.get(String(body.line)), at);
  }
  /** @type {Full<string, Draft<LotUse>>} */
  const uses = full();
  for (const key of new Set(state.gathered.map(({ ingredient }) => ingredient))) {
    const gathered = state.gathered.filter(({ ingredient }) => ingredient === key);
    let restMg = weighed.get(key) ?? 0;
    let restCount = counted.get(key) ?? 0;
    let unbooked = wanted.get(key) ?? 0;
    for (const each of gathered) {
      const isLast = each === last(gathered);
      const booked = each.mg ?? Math.max(0, unbooked);
      unbooked -= booked;
      const mg = isLast ? restMg : Math.min(booked, restMg);
      restMg -= mg;
      const most = each.count ?? restCount;
      const count = key === WRAP ? most : isLast ? restCount : Math.min(most, restCount);
      restCount -= count;
      if (!uses.has(each.lot)) uses.set(each.lot, { mg: 0, count: 0, booked_mg: 0, at: each.at });
      const use = uses.get(each.lot);
      use.mg += mg;
      use.count += count;
      use.booked_mg += booked;
      use.at = Math.max(use.at, lastAt.get(key) ?? 0);
    }
  }
  return Object.fromEntries(uses);
}
