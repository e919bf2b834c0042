/** Taking in what happened at the bowls: poured, taken out, zeroed, moved to another scale, portioned. */

import { last } from "../lists.js";
import { inReach } from "./amounts.js";
import { add, scaleNow } from "./tally.js";
/** @import { Takes } from "../../../types/bench" */

/**
 * @typedef {"weighed" | "taken_out" | "left" | "left_out" | "carried" | "zeroed"
 *   | "placed" | "took" | "switched" | "portioned"} AtTheBowls
 */

/** @type {Pick<Takes, AtTheBowls>} */
export const AT_THE_BOWLS = {
  weighed(tally, at, { line: key, mg: told }, { id, device }) {
    const { vessel, cup, mg: target } = tally.lines.get(key);
    if (told === undefined && target !== null) return false;
    const mg = told ?? 0;
    if (vessel !== null) {
      if (tally.weigh === "tare" && !cup) tally.zeroMg.set(vessel, tally.vesselMg.get(vessel));
      add(tally.vesselMg, vessel, mg);
    }
    add(tally.inMg, key, mg);
    tally.outTwice.delete(key);
    tally.touched.set(key, at);
    tally.weighedOn.set(key, scaleNow(tally, tally.lines.get(key)));
    if (!tally.pouredBy.has(key)) tally.pouredBy.set(key, device);
    else if (tally.pouredBy.get(key) !== device) tally.twice.set(key, id);
    if (tally.decided.get(key) === "left_out") tally.decided.delete(key);
  },

  taken_out(tally, at, { line: key, mg: asked, seen }, { id, device }) {
    const of = `${key} ${seen}`;
    if (seen !== undefined && (tally.tookOut.get(of) ?? device) !== device) tally.outTwice.set(key, id);
    if (!tally.tookOut.has(of)) tally.tookOut.set(of, device);
    const mg = Math.min(asked, tally.inMg.get(key));
    const { vessel } = tally.lines.get(key);
    add(tally.inMg, key, -mg);
    if (vessel !== null) add(tally.vesselMg, vessel, -mg);
    tally.touched.set(key, at);
  },

  left(tally, at, { line }) {
    tally.decided.set(line, "left");
    tally.touched.set(line, at);
  },

  left_out(tally, at, { line }) {
    tally.decided.set(line, "left_out");
    tally.touched.set(line, at);
  },

  carried(tally, _at, { component, round, num, den, left = [] }) {
    const key = `${component}.${round}`;
    if (!tally.rounds.has(key) || !inReach(num, den)) return false;
    tally.factors.set(key, [num, den]);
    for (const line of tally.sheet.lines) {
      // New targets, so what was let pass is judged again.
      if (`${line.component}.${line.round}` !== key) continue;
      if (tally.decided.get(line.id) === "left") tally.decided.delete(line.id);
      if (left.includes(line.id) && tally.touched.has(line.id) && !tally.decided.has(line.id))
        tally.decided.set(line.id, "left");
    }
  },

  zeroed(tally, _at, { vessel }) {
    tally.zeroMg.set(vessel, tally.vesselMg.get(vessel));
  },

  placed(tally, _at, { vessel, scale, line }) {
    if (!tally.sheet.kit.scales.some(({ id }) => id === scale)) return false;
    if (line !== undefined && tally.lines.get(line).vessel !== vessel) return false;
    if (line !== undefined) tally.placed.set(line, scale);
    else {
      tally.scaleOf.set(vessel, scale);
      tally.zeroMg.set(vessel, tally.vesselMg.get(vessel));
    }
    return true;
  },

  took(tally, _at, { vessel, instead }) {
    if (!tally.sheet.kit.vessels.some(({ id }) => id === instead)) return false;
    tally.taken.set(vessel, instead);
    tally.zeroMg.set(vessel, tally.vesselMg.get(vessel));
    return true;
  },

  switched(tally, _at, { weigh }) {
    tally.weigh = weigh;
  },

  portioned(tally, at, { vessel, mg, seen }) {
    const step = tally.splitOf.get(vessel);
    if (!step || vessel === last(step.portions).vessel) return false;
    const of = `${vessel} ${seen}`;
    if (tally.portionedOf.has(of)) return true; // two phones told of one portion
    if (seen !== undefined) tally.portionedOf.add(of);
    add(tally.portions, vessel, mg);
    add(tally.vesselMg, vessel, mg);
    add(tally.zeroMg, vessel, mg);
    add(tally.vesselMg, step.vessel, -mg);
    tally.portionedAt.set(vessel, at);
  },
};
