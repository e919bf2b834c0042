/**
 * What a vessel and its scale still take, and what the lines of a part come to in the end.
 *
 * The sheet's vessel and scale are a proposal: what counts is what the state says of them (`took`, `placed`).
 * All of a part ends up in its bowl and is divided from there; a jug takes what is weighed into it.
 * The same as bench/capacity.py.
 */

import { say } from "../words.js";
import { joined } from "./brief.js";
import { divisionOn } from "./journal/index.js";
import { full } from "./lists.js";
import { ASSEMBLY } from "./states.js";
import { allowedMg } from "./weighing.js";
import { mass, halfEven, PPM, product, sum } from "./whole.js";
import { divides } from "./steps/index.js";
/** @import { Sheet, SheetLine, State, VesselState } from "../../bench/shapes/page" */
/** @import { Place, Ratio, WeighedLine } from "../../types/bench" */
/** @import { Full } from "../../types/lists" */
/** @import { Int } from "./whole.js" */

const TO_COME = ["open", "short"];

/** @param {SheetLine} line @returns {line is WeighedLine} */
const isWeighed = (line) => line.mg !== null;

/** The lines of one round that have a mass. @param {Pick<Sheet, "lines">} sheet @param {Place} place */
export const weighedLines = ({ lines }, { component, round }) =>
  lines.filter(isWeighed).filter((line) => line.component === component && line.round === round);

/**
 * What each weighed line of a round comes to in the end, in mg, by line: its target while it is still to come, else
 * what went in.
 * @param {Sheet} sheet @param {State} state @param {Place} place
 */
export function coming(sheet, state, place) {
  return full(
    weighedLines(sheet, place).map(({ id }) => {
      const { status, target_mg: target, in_mg: inMg } = state.lines[id];
      return /** @type {const} */ ([id, TO_COME.includes(status) && target !== null ? target : inMg]);
    }),
  );
}

/**
 * {ends, over}: what each line comes to once the round is made num / den of the sheet's, and which of them would
 * then be too much: they are in already. kept: lines that stay as they are.
 * @param {Sheet} sheet @param {State} state @param {Place} place @param {Ratio} ratio @param {readonly string[]} kept
 */
export function carriedTo(sheet, state, place, [num, den], kept) {
  /** @type {Full<string, number>} */
  const ends = full();
  /** @type {string[]} */
  const over = [];
  for (const line of weighedLines(sheet, place)) {
    const { in_mg: inMg, status, scale } = state.lines[line.id];
    const target = halfEven(product(line.mg, num), den);
    const isTooMuch = inMg - target > allowedMg(line, divisionOn(sheet, scale)?.mg, num, den);
    const stays = kept.includes(line.id) || status === "left_out";
    ends.set(line.id, stays || isTooMuch ? inMg : target);
    if (isTooMuch && !stays) over.push(line.id);
  }
  return { ends, over };
}

/**
 * What each vessel of a round holds at its fullest, in mg, when its lines come to this much.
 * @param {Sheet} sheet @param {Place} place @param {Full<string, number>} ends @returns {[string, number][]}
 */
export function loads(sheet, { component, round }, ends) {
  const portions = new Set(
    sheet.steps.filter((step) => divides(step)).flatMap((step) => step.portions.map(({ vessel }) => vessel)),
  );
  /** @type {Map<string, number>} */
  const held = new Map();
  for (const { id, vessel } of weighedLines(sheet, { component, round })) {
    if (vessel !== null) held.set(vessel, (held.get(vessel) ?? 0) + ends.get(id));
  }
  const bowl = `${component}.${round}.bowl`;
  if (component !== ASSEMBLY && sheet.vessels.some(({ id }) => id === bowl))
    held.set(bowl, sum([...ends.values()]));
  return [...held].filter(([vessel]) => !portions.has(vessel));
}

/**
 * {vessel, says, isCured}: the first that does not take this, or whose scale does not, and whether another of the kit
 * would; null where all fits.
 * @param {Sheet} sheet @param {State} state @param {[string, number][]} held
 */
export function tooFull(sheet, state, held) {
  const { kit } = sheet;
  for (const [key, mg] of held) {
    const vessel = state.vessels[key];
    const says = passed(sheet, vessel, mg);
    if (!says) continue;
    const kind = kit.vessels.find(({ id }) => id === vessel.kit)?.kind ?? null;
    const larger = kit.vessels
      .filter(
        (each) => each.id !== vessel.kit && (kind === null || each.kind === kind) && each.holds_mg >= mg,
      )
      .sort((one, other) => one.holds_mg - other.holds_mg || (one.id < other.id ? -1 : 1));
    for (const each of [{ ...vessel, id: null }, ...larger]) {
      for (const scale of kit.scales) {
        if (passed(sheet, { ...vessel, ...each, scale: scale.id }, mg)) continue;
        const take = each.id ? say("capacity-take", { vessel: each.name }) : "";
        const weigh = scale.id !== vessel.scale ? say("capacity-weigh-on", { scale: scale.name }) : "";
        return { vessel: key, says: joined(says, take, weigh), isCured: true };
      }
    }
    return { vessel: key, says, isCured: false };
  }
  return null;
}

/**
 * What is passed when this much is in a vessel; "" when nothing is.
 * @param {Sheet} sheet @param {Pick<VesselState, "name" | "empty_mg" | "holds_mg" | "scale">} vessel
 * @param {number} mg
 */
function passed({ kit }, vessel, mg) {
  if (vessel.holds_mg !== null && mg > vessel.holds_mg) {
    const most = mass(vessel.holds_mg, 1000);
    return say("capacity-holds", { mass: mass(mg, 1000), vessel: vessel.name, most });
  }
  const scale = kit.scales.find(({ id }) => id === vessel.scale);
  if (!scale || vessel.empty_mg + mg <= scale.capacity_mg) return "";
  const most = mass(scale.capacity_mg, 1000);
  const whole = mass(vessel.empty_mg + mg, 1000);
  return say("capacity-weighs", { mass: whole, vessel: vessel.name, scale: scale.name, most });
}

/**
 * [of the part, of the piece]: an ingredient's shares in ppm when these lines come to this much, and the others to what
 * the state says.
 * @param {Sheet} sheet @param {State} state @param {Map<string, number>} ends @param {string} ingredient
 * @param {string} component @returns {[number, number]}
 */
export function sharesOf(sheet, state, ends, ingredient, component) {
  let ofPart = 0;
  let [ofPiece, whole] = [0n, 0n];
  for (const part of sheet.components) {
    let [mine, all] = [0, 0];
    for (const { round } of part.rounds) {
      const place = { component: part.id, round };
      const masses = coming(sheet, state, place);
      for (const line of weighedLines(sheet, place)) {
        const mg = ends.get(line.id) ?? masses.get(line.id);
        all += mg;
        if (line.ingredient === ingredient) mine += mg;
      }
    }
    const share = all ? halfEven(product(mine, PPM), all) : 0;
    if (part.id === component) ofPart = share;
    const weight = product(part.takes, part.piece_mg);
    ofPiece = plus(ofPiece, product(share, weight));
    whole = plus(whole, weight);
  }
  return [ofPart, whole ? halfEven(ofPiece, whole) : ofPart];
}

/** @param {Int} one @param {Int} other */
const plus = (one, other) => BigInt(one) + BigInt(other);
