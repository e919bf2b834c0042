/**
 * In how many rounds a component is made: when a vessel, a mould set or a scale is too small for all of it at once,
 * and the sheet says why.
 */

import { say, sayAll } from "../words.js";
import { BenchError } from "./errors.js";
import { unfit } from "./materials.js";
import { coarsestFirst } from "./weighing.js";
import { reasonWords } from "./sheet-reasons.js";
import { ceiling, divided, mass, product, sum } from "./whole.js";
import { makeMg } from "./yields.js";
import { divides, putsIn } from "./steps/index.js";
/** @import { Component, Kit, RoundsReason, Vessel } from "../../bench/shapes/page" */

const MOST_MG = 10 ** 10; // ten tonnes: past any bench, and every number on the sheet stays exact
const MOST_ROUNDS = 100; // more is not a day's work, and what rounds ask of one another grows with their square

/**
 * The most that fits this vessel and the best scale under it, in mg; null without a scale.
 * @param {Pick<Kit, "scales">} kit @param {Vessel | null} vessel
 */
export function roomMg(kit, vessel) {
  const rooms = kit.scales.map((scale) => scale.capacity_mg - (vessel?.empty_mg ?? 0));
  const byScale = rooms.length ? Math.max(...rooms) : null;
  if (!vessel) return byScale;
  return byScale === null ? vessel.holds_mg : Math.min(vessel.holds_mg, byScale);
}

/**
 * The smallest vessel of the kind that takes this mass, else the roomiest; null when there is none.
 * @param {Kit} kit @param {string} kind @param {number} mg @param {Set<string>} [besides] that are not to be had
 */
export function vesselFor(kit, kind, mg, besides = new Set()) {
  const vessels = kit.vessels
    .filter((vessel) => vessel.kind === kind && !besides.has(vessel.id))
    .sort((one, other) => one.holds_mg - other.holds_mg || (one.id < other.id ? -1 : 1));
  const room = (/** @type {Vessel} */ vessel) => roomMg(kit, vessel) ?? 0;
  const taking = vessels.find((vessel) => room(vessel) >= mg);
  if (taking) return taking;
  const [roomiest] = vessels.sort((one, other) => room(other) - room(one) || (one.id < other.id ? 1 : -1));
  return roomiest ?? null;
}

/**
 * How many pieces the matching moulds hold at once; null when nothing limits it.
 * @param {Kit} kit @param {Component} component
 */
export function cavities(kit, component) {
  const mould = component.mould;
  if (!mould) return null;
  const matching = kit.moulds.filter((each) => each.shape === mould.shape);
  const fitting = matching.filter((each) => each.cavity_mg === null || each.cavity_mg >= component.piece_mg);
  if (matching.length && !fitting.length) {
    const holds = Math.max(...matching.map((each) => each.cavity_mg ?? 0));
    throw new BenchError(
      "moulds",
      say("sizing-piece-too-big", {
        name: component.name,
        piece: mass(component.piece_mg, 100),
        shape: mould.shape,
        held: mass(holds, 100),
      }),
    );
  }
  if (!fitting.length || !mould.held) return null;
  return sum(fitting.map((each) => each.cavities * each.sets));
}

/**
 * How many pieces in each round, as even as can be, and the reasons: {perRound, why}.
 *
 * A BenchError when not even one piece fits, or when it takes too many rounds.
 * @param {Component} component @param {Kit} kit @param {number} count
 */
export function rounds(component, kit, count) {
  /** @type {RoundsReason[]} */
  const why = [];
  let least = 1;
  if (makeMg(component, count) > MOST_MG) {
    throw new BenchError("pieces", say("sizing-too-heavy", { name: component.name }));
  }
  const moulds = cavities(kit, component);
  if (moulds !== null && count > moulds) {
    least = ceiling(count, moulds);
    why.push({ kind: "moulds", shape: component.mould?.shape ?? "", holds: moulds });
  }
  for (const { label, kind, part, whole } of goingIn(component)) {
    /** @param {number} pieces */
    const load = (pieces) => ceiling(product(makeMg(component, pieces), part), whole);
    const roomiest = vesselFor(kit, kind, load(count), unfit(kit, component, label, kind));
    const room = roomMg(kit, roomiest);
    // A jug or pan that the kit lacks limits nothing; the bowl is always limited by its scale.
    const isUnlimited = room === null || (!roomiest && kind !== component.vessel);
    if (isUnlimited || load(ceiling(count, least)) <= room) continue;
    if (load(1) > room) {
      throw new BenchError(
        "pieces",
        say("sizing-one-too-big", {
          name: component.name,
          piece: mass(load(1), 1000),
          vessel: kind,
          room: mass(Math.max(0, room), 1000),
        }),
      );
    }
    while (least <= MOST_ROUNDS && load(ceiling(count, least)) > room) least += 1;
    why.push(
      roomiest
        ? { kind: "vessel", name: roomiest.name, mg: room }
        : { kind: "scale", name: coarsestFirst(kit)[0].name, mg: room },
    );
  }
  if (least > MOST_ROUNDS) {
    throw new BenchError(
      "pieces",
      say("sizing-too-many-rounds", {
        name: component.name,
        count,
        most: MOST_ROUNDS,
        why: sayAll(why.map(reasonWords)),
      }),
    );
  }
  return { perRound: spread(count, least), why };
}

/**
 * What each kind of vessel takes of the component, as {label, kind, part, whole}; the bowl takes it all.
 *
 * Portions are weighed out of the bowl, and small cups are emptied line by line: neither limits.
 * @param {Component} component
 */
function goingIn(component) {
  const ug = new Map(component.lines.map((line) => [line.id, line.ug ?? 0]));
  const whole = sum([...ug.values()]);
  const splits = component.steps.filter((step) => divides(step));
  const emptied = new Set(["bowl", "cup", ...splits.flatMap((step) => step.portions.map(({ id }) => id))]);
  const parts = new Map();
  for (const step of component.steps) {
    if (!putsIn(step) || emptied.has(step.into)) continue;
    parts.set(step.into, (parts.get(step.into) ?? 0) + sum(step.lines.map((key) => ug.get(key) ?? 0)));
  }
  const others = [...parts]
    .filter(([, part]) => part)
    .map(([kind, part]) => ({ label: kind, kind, part, whole }));
  return [{ label: "bowl", kind: component.vessel, part: 1, whole: 1 }, ...others];
}

/** `count` pieces over that many rounds, the fuller rounds first. @param {number} count @param {number} over */
function spread(count, over) {
  const [base, more] = divided(count, over);
  return Array.from({ length: over }, (_, index) => base + (index < more ? 1 : 0));
}
