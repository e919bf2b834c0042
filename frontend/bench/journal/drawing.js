/** The state, drawn from a tally: what follows from the entries for every step, line and vessel. */

import { last } from "../lists.js";
import { allowedMg } from "../weighing.js";
import { halfEven, product, sum } from "../whole.js";
import { divisionOn } from "./amounts.js";
import { settleCounting } from "./counting.js";
import { running } from "./running.js";
import { add, scaleNow, settle } from "./tally.js";
import { divides, putsIn } from "../steps/index.js";
/** @import { LineState, LineStatus, SheetLine, SheetVessel, State, Step } from "../../../bench/shapes/page" */
/** @import { JudgementTold, StepState, VesselState } from "../../../bench/shapes/page" */
/** @import { Tally } from "./tally.js" */

/** @param {Tally} tally @returns {State} */
export function draw(tally) {
  settleSplitting(tally);
  const lines = Object.fromEntries(tally.sheet.lines.map((line) => [line.id, lineTold(tally, line)]));
  settleWeighing(tally, lines);
  const expected = settleCounting(tally);
  const steps = Object.fromEntries(tally.sheet.steps.map((step) => [step.id, stepTold(tally, step)]));
  return {
    started_at: tally.startedAt,
    finished_at: tally.finishedAt,
    last_at: tally.lastAt,
    weigh: tally.weigh,
    steps,
    lines,
    vessels: Object.fromEntries(tally.sheet.vessels.map((vessel) => [vessel.id, vesselTold(tally, vessel)])),
    bursts: Object.fromEntries(tally.bursts),
    looks: Object.fromEntries(tally.looks),
    counts: Object.fromEntries(tally.counts),
    expected: Object.fromEntries(expected),
    portions: Object.fromEntries(tally.portions),
    factors: Object.fromEntries(tally.factors),
    ...running(tally, steps),
    number: tally.number,
    also_numbered: [...tally.alsoNumbered],
    gathered: tally.gathered,
    ticked: Object.fromEntries(tally.ticked),
    measured: tally.measured,
    air: tally.air,
    proved: tally.proved,
    labelled: tally.labelled,
    pictures: tally.pictures,
    worked: Object.fromEntries(tally.worked),
    signed: tally.signed,
    unsigned: tally.unsigned,
    remarks: tally.remarks,
    notes: tally.notes,
    kept: tally.kept,
    met: Object.fromEntries(tally.met),
    judgements: [...tally.judgements].sort(inTurn),
    unread: tally.unread.sort(),
  };
}

/** By (at, device, id), whether they were sealed or not. @param {JudgementTold} one @param {JudgementTold} other */
function inTurn(one, other) {
  const key = /** @type {const} */ (["at", "device", "id"]).find((each) => one[each] !== other[each]);
  return key === undefined ? 0 : one[key] < other[key] ? -1 : 1;
}

/** @param {Tally} tally */
function settleSplitting(tally) {
  for (const step of tally.sheet.steps) {
    if (!divides(step)) continue;
    const weighed = step.portions.slice(0, -1).map((portion) => portion.vessel);
    if (weighed.every((key) => tally.portions.has(key))) {
      settle(tally, step.id, "done", Math.max(...weighed.flatMap((key) => tally.portionedAt.get(key) ?? [])));
    }
    if (tally.settled.get(step.id)?.status === "done") {
      const final = last(step.portions).vessel;
      const rest = tally.vesselMg.get(step.vessel);
      tally.portions.set(final, rest);
      add(tally.vesselMg, final, rest);
      add(tally.zeroMg, final, rest);
      tally.vesselMg.set(step.vessel, 0);
    }
  }
}

/** @param {Tally} tally @param {{[line: string]: LineState}} lines */
function settleWeighing(tally, lines) {
  for (const step of tally.sheet.steps) {
    if (!putsIn(step)) continue;
    if (step.lines.some((key) => ["open", "short", "over"].includes(lines[key].status))) continue;
    const times = step.lines.flatMap((key) => tally.touched.get(key) ?? []);
    if (times.length) settle(tally, step.id, "done", Math.max(...times));
  }
}

/**
 * What is in a vessel, and which one it is by now.
 * @param {Tally} tally @param {SheetVessel} vessel @returns {VesselState}
 */
function vesselTold(tally, vessel) {
  const { id } = vessel;
  const now = tally.sheet.kit.vessels.find((each) => each.id === tally.taken.get(id)) ?? vessel;
  return {
    in_mg: tally.vesselMg.get(id),
    zero_mg: tally.zeroMg.get(id),
    name: now.name,
    empty_mg: now.empty_mg,
    holds_mg: now.holds_mg,
    scale: tally.scaleOf.get(id),
    kit: tally.taken.get(id) ?? vessel.kit ?? null,
  };
}

/**
 * Where a line stands. `scale` is the one that its next pour goes onto, `weighed_on` that of its last.
 * @param {Tally} tally @param {SheetLine} line @returns {LineState}
 */
function lineTold(tally, line) {
  const on = { scale: scaleNow(tally, line), weighed_on: tally.weighedOn.get(line.id) ?? null };
  const twice = tally.outTwice.get(line.id);
  const told = { ...stands(tally, line, on.weighed_on ?? on.scale), ...on };
  return twice === undefined ? told : { ...told, out_twice: twice };
}

/**
 * @param {Tally} tally @param {SheetLine} line @param {string | null} scale
 * @returns {Omit<LineState, "scale" | "weighed_on">}
 */
function stands(tally, line, scale) {
  const inMg = tally.inMg.get(line.id);
  if (line.mg === null && line.step === null) {
    return { target_mg: null, in_mg: inMg, status: "by_hand", twice: null };
  }
  const [num, den] = tally.factors.get(`${line.component}.${line.round}`) ?? [1, 1];
  const target =
    line.mg === null ? null : byPortion(tally, line.vessel, halfEven(product(line.mg, num), den));
  /** @returns {LineStatus} */
  const judged = () => {
    if (target === null) return tally.touched.has(line.id) ? "in" : "open";
    if (inMg === 0 && target > 0) return "open";
    if (Math.abs(inMg - target) <= allowedMg(line, divisionOn(tally.sheet, scale)?.mg, num, den)) return "in";
    return inMg < target ? "short" : "over";
  };
  return {
    target_mg: target,
    in_mg: inMg,
    status: tally.decided.get(line.id) ?? judged(),
    twice: tally.twice.get(line.id) ?? null,
  };
}

/**
 * A target for what goes into a portion, by what that portion really came to.
 * @param {Tally} tally @param {string | null} vessel @param {number} target
 */
function byPortion(tally, vessel, target) {
  const step = vessel === null ? undefined : tally.splitOf.get(vessel);
  if (!step || vessel === null || tally.settled.get(step.id)?.status !== "done") return target;
  const total = sum(step.portions.map((portion) => tally.portions.get(portion.vessel) ?? 0));
  const held = tally.portions.get(vessel) ?? 0;
  if (total <= 0 || held < 0 || held > total) return target;
  const share = step.portions.find((portion) => portion.vessel === vessel)?.share ?? 0;
  const shares = sum(step.portions.map((portion) => portion.share));
  return halfEven(product(target, product(held, shares)), product(total, share));
}

/** @param {Tally} tally @param {Step} step @returns {StepState} */
function stepTold(tally, step) {
  const ready = readyAt(tally, step);
  const settled = tally.settled.get(step.id);
  const status = isTouched(tally, step) ? "begun" : ready === null ? "waiting" : "ready";
  return {
    status: settled?.status ?? status,
    ready_at: ready,
    at: settled?.at ?? null,
    way: tally.way.get(step.id) ?? null,
    why: settled?.why ?? "",
  };
}

/** When the last of a step's needs was settled; null while one is not. @param {Tally} tally @param {Step} step */
function readyAt(tally, step) {
  let ready = tally.startedAt ?? 0;
  for (const need of step.after) {
    const settled = tally.settled.get(need);
    if (!settled) return null;
    ready = Math.max(ready, settled.at);
  }
  return ready;
}

/** @param {Tally} tally @param {Step} step */
function isTouched(tally, step) {
  return (
    [tally.began, tally.bursts, tally.looks, tally.counts].some((each) => each.has(step.id)) ||
    (putsIn(step) && step.lines.some((line) => tally.touched.has(line))) ||
    (divides(step) && step.portions.some(({ vessel }) => tally.portions.has(vessel)))
  );
}
