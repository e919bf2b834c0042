/** Dry or not: a weighing test. The same as bench/dryness.py, which says by what rule. */

import { joined } from "./brief.js";
import { last } from "./lists.js";
import { ceiling, mass, halfEven, PPM, product } from "./whole.js";
import { say } from "../words.js";
/** @import { DryAnswer, Dryness, MeasuredMass, Scale, Sheet, State } from "../../bench/shapes/page" */

const CONSTANT_PPM = 500; // 0.50 mg for each g
const APART_MS = 60 * 60_000;

/**
 * What two weighings of one piece say.
 * @param {{at: number, mg: number}} first @param {{at: number, mg: number}} second @param {number} divisionMg
 * @param {number | null} [ownPpm] @param {number | null} [humidity] the room's, in per cent @returns {Dryness}
 */
export function dryness(first, second, divisionMg, ownPpm = null, humidity = null) {
  const change = second.mg - first.mg;
  const elapsed = second.at - first.at;
  const [off, moved] = [divisionMg, Math.abs(change)].map((mg) => BigInt(mg) * BigInt(PPM));
  /** @param {number} limit @returns {DryAnswer} */
  const judged = (limit) => {
    const allowed = BigInt(first.mg) * BigInt(limit);
    if (elapsed < APART_MS) return "too_soon";
    if (allowed < off || !allowed) return "cannot_tell";
    if (change > divisionMg) return "gains";
    if (moved + off <= allowed) return "dry";
    if ((moved - off) * BigInt(APART_MS) > allowed * BigInt(elapsed)) return "not_yet";
    return moved - off > allowed ? "slower" : "unclear";
  };
  const constant = judged(CONSTANT_PPM);
  const own = ownPpm === null ? null : judged(ownPpm);
  const least = ceiling(product(divisionMg, PPM), CONSTANT_PPM);
  const isOnlyOwn = ["cannot_tell", "not_yet", "slower", "unclear"].includes(constant) && own === "dry";
  const says = joined(
    say("dryness-says", { constant, least: mass(least, divisionMg) }),
    constant === "dry" || constant === "gains"
      ? say("dryness-air", { known: humidity === null ? "no" : "yes", humidity: String(humidity ?? "") })
      : "",
    isOnlyOwn ? say("dryness-own") : "",
  );
  return {
    constant,
    own,
    change_mg: change,
    change_ppm: first.mg ? halfEven(product(change, PPM), first.mg) : null,
    least_mg: least,
    says,
  };
}

/**
 * The test of each piece weighed at a step at least twice; see bench/dryness.py.
 * @param {Sheet} sheet @param {State} state @param {string} step @param {number | null} [ownPpm]
 */
export function drynessOf(sheet, state, step, ownPpm = null) {
  const weighed = state.measured.filter(
    (each) => each.what === "piece" && each.step === step && each.piece !== null,
  );
  const pieces = [...new Set(weighed.map(({ piece }) => piece ?? 0))].sort((one, other) => one - other);
  return pieces.flatMap((piece) => {
    const ofPiece = weighed.filter((each) => each.piece === piece);
    if (ofPiece.length < 2) return [];
    const newest = last(ofPiece);
    const older = ofPiece.filter(({ at }) => newest.at - at >= APART_MS);
    const first = last(older.length ? older : ofPiece.slice(0, -1));
    const humidity = humidityOf(state, first.at, newest.at);
    return [{ piece, ...dryness(first, newest, divisionFor(sheet.kit.scales, newest), ownPpm, humidity) }];
  });
}

/**
 * The room's humidity as it was read last between two weighings, or within an hour of them; null: nobody did.
 * @param {State} state @param {number} began @param {number} ended
 */
const humidityOf = ({ air }, began, ended) =>
  air.findLast(({ at }) => began - APART_MS <= at && at <= ended + APART_MS)?.humidity ?? null;

/** @param {readonly Scale[]} scales @param {MeasuredMass} weighed */
function divisionFor(scales, { scale, mg }) {
  const named = scales.filter(({ id }) => id === scale);
  const carry = scales.filter(({ capacity_mg }) => capacity_mg >= mg);
  const could = [named, carry, scales].find(({ length }) => length) ?? [];
  return could.length ? Math.min(...could.map(({ division_mg }) => division_mg)) : 1;
}
