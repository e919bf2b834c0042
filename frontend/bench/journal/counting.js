/** How many pieces each count is for, as counts before it and scalings leave it. */

import { full } from "../lists.js";
import { piecesFrom } from "../yields.js";
import { ASSEMBLY } from "../states.js";
import { divided, halfEven, product, sum } from "../whole.js";
import { leftOfMix, NO_COUNT } from "./amounts.js";
import { settle } from "./tally.js";
import { countsPieces } from "../steps/index.js";
/** @import { PiecesStep, SheetComponent, Step } from "../../../bench/shapes/page" */
/** @import { Ratio } from "../../../types/bench" */
/** @import { Full } from "../../../types/lists" */
/** @import { Tally } from "./tally.js" */

/**
 * How many good pieces each count now expects, by step: no more than came out of the counts before it.
 *
 * What was spoiled is no piece: it is made again while another comes from before, or out of what is left of the
 * mix. Counts of earlier versions, which do not say what they saw, took it for one, and stay as they were.
 * @param {Tally} tally
 */
export function settleCounting(tally) {
  /** @type {Full<string, number>} */
  const expected = full();
  /** @param {string} key */
  const usable = (key) => {
    const count = tally.counts.get(key);
    return count ? count.good + count.partial : expected.get(key);
  };
  /** @param {Step} step */
  const reckon = (step) => {
    if (!countsPieces(step) || expected.has(step.id)) return;
    const isOld = tally.unseeing.has(step.id);
    const { good, spoiled, partial } = tally.counts.get(step.id) ?? NO_COUNT;
    const made = good + partial;
    const lower = (/** @type {number} */ most) =>
      expected.set(step.id, Math.min(expected.get(step.id), most));
    expected.set(step.id, isOld ? step.count : plannedOf(tally, step));
    for (const source of step.follows) {
      // Of a later kind, which counts in a way that nobody here knows.
      if (!source.steps.every((key) => countsPieces(tally.steps.get(key)))) continue;
      for (const key of source.steps) reckon(tally.steps.get(key));
      if (!source.steps.every((key) => tally.settled.get(key)?.status === "done")) continue;
      const [pieces] = divided(sum(source.steps.map(usable)), source.takes);
      lower(Math.max(0, pieces - (isOld ? 0 : spoiled)));
    }
    if (!step.follows.length && !isOld && made + spoiled >= expected.get(step.id) && !makesMore(tally, step))
      lower(made);
    const counted = tally.countedAt.get(step.id);
    if (counted !== undefined && made + (isOld ? spoiled : 0) >= expected.get(step.id))
      settle(tally, step.id, "done", counted);
  };
  for (const step of tally.sheet.steps) reckon(step);
  return expected;
}

/**
 * How many pieces a count is for, now that rounds were scaled up or down.
 * @param {Tally} tally @param {PiecesStep} step
 */
function plannedOf({ sheet, factors, parts }, step) {
  const partOf = (/** @type {string} */ key) => parts.get(key);
  if (step.component !== ASSEMBLY) return askedOf(factors, partOf(step.component), step);
  const more = sheet.components
    .filter(({ id }) => id !== ASSEMBLY)
    .map((part) => moreOf(factors, part, sheet.size.pieces));
  const isLast = step.round === partOf(ASSEMBLY).rounds.length;
  return step.count + (isLast && more.length ? Math.max(0, Math.min(...more)) : 0);
}

/**
 * How many finished pieces more than were asked for this part now is enough for.
 * @param {Map<string, Ratio>} factors @param {SheetComponent} part @param {number} pieces
 */
function moreOf(factors, part, pieces) {
  const { takes } = part;
  const made = sum(part.rounds.map((each) => askedOf(factors, part, each)));
  return takes ? divided(made - part.spares, takes)[0] - pieces : 0;
}

/** @param {Map<string, Ratio>} factors @param {SheetComponent} part @param {{round: number, count: number}} made */
function askedOf(factors, part, { round, count }) {
  const [num, den] = factors.get(`${part.id}.${round}`) ?? [1, 1];
  if (num === den || part.piece_mg <= 0) return count;
  const now = piecesFrom(part, halfEven(product(part.rounds[round - 1].make_mg, num), den));
  return num > den ? Math.max(count, now) : Math.max(1, Math.min(count, now));
}

/** Whether what is left of the mix is one more whole piece. @param {Tally} tally @param {PiecesStep} step */
function makesMore({ sheet, counts, vesselMg }, step) {
  const left = leftOfMix(step, (vessel) => vesselMg.get(vessel), counts.get(step.id), sheet);
  return step.piece_mg > 0 && left >= step.piece_mg;
}
