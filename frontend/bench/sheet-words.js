/**
 * What a sheet's codes and values are in words: reasons, warnings, spoons, cautions, and what a recipe left unsaid.
 * The same as bench/sheet_words.py.
 */

import { say } from "../words.js";
import { joined } from "./brief.js";
import { inFull } from "./cautions.js";
import { grams, PPM, perCent } from "./whole.js";
/** @import { CheckStep, InSpoons, PieceWords, PiecesStep, RoundsReason } from "../../bench/shapes/page" */
/** @import { SheetLine, Spoonful, Step, Warn } from "../../bench/shapes/page" */
/** @import { ByCode } from "./cautions.js" */

/** As a measured recipe has them that names none. @type {PieceWords} */
export const UNNAMED = { one: "piece", many: "pieces" };
const SHARES_OF = "½¼⅛"; // a spoon whose name begins so is a share of another

/** Why a part is made in several rounds. @param {RoundsReason} reason */
export function reasonWords(reason) {
  switch (reason.kind) {
    case "moulds":
      return say("sheet-moulds-hold", { shape: reason.shape, held: reason.holds });
    case "vessel":
      return say("sheet-vessel-takes", { vessel: reason.name, mass: grams(reason.mg, 1000) });
    case "scale":
      return say("sheet-scale-takes", { scale: reason.name, mass: grams(reason.mg, 1000) });
    case "at_once":
      return say("sheet-used-at-once", { part: reason.name, rounds: reason.rounds });
    case "said":
      return reason.text;
  }
}

/** @param {Warn} warning */
export function warningWords(warning) {
  switch (warning.kind) {
    case "no_mould":
      return say("sheet-no-mould", { shape: warning.shape });
    case "no_scale":
      return say("sheet-no-scale", { mass: grams(warning.mg, 1000) });
    case "too_full": {
      const { vessel } = warning;
      return say("sheet-too-full", {
        vessel,
        room: grams(warning.holds_mg, 1000),
        mass: grams(warning.mg, 1000),
      });
    }
    case "for_two_parts": {
      const { vessel, part, other } = warning;
      return say("sheet-for-two-parts", { vessel, part, other });
    }
    case "needed_twice": {
      const { vessel, part, vessel_kind: kind } = warning;
      return say("sheet-needed-twice", { vessel, part, kind });
    }
    case "less_than_one":
      return say("sheet-less-than-one", { name: warning.name });
    case "less_than_a_spoon":
      return say("sheet-less-than-a-spoon", { name: warning.name });
    case "drops":
      return say("sheet-drops-differ");
    case "too_little": {
      const { name, scale } = warning;
      const share = perCent(warning.off_ppm, PPM);
      return say("sheet-too-little", { name, mass: grams(warning.mg, 10), scale, share });
    }
    case "said":
      return warning.text;
  }
}

/**
 * 2¾ tsp is "2 tsp + ½ tsp + ¼ tsp", and what that is off by from 1 % is said: "⅛ tsp (4 % less)"; "" for null.
 * @param {InSpoons | null} measure
 */
export function spoonsWords(measure) {
  if (!measure) return "";
  const { off_percent: off, part_percent: part } = measure;
  if (part !== null)
    return say("sheet-part-of-spoon", { percent: part, spoon: spoon(measure.spoons[0].spoon) });
  const spoons = measure.spoons.map(spoonful).join(" + ");
  if (!off) return spoons;
  const percent = Math.abs(off);
  return off > 0 ? say("sheet-off-more", { spoons, percent }) : say("sheet-off-less", { spoons, percent });
}

/** @param {Spoonful} each */
function spoonful({ spoon: name, count }) {
  if (!SHARES_OF.includes(name[0])) return say("sheet-spoons", { count, spoon: name });
  return count === 1 ? spoon(name) : say("sheet-shares-of-spoon", { count, spoon: spoon(name) });
}

/** The name of a spoon: "½ tsp". @param {string} name */
function spoon(name) {
  const at = name.lastIndexOf(" ");
  const named = say("sheet-spoon", { spoon: name.slice(at + 1) });
  return at < 0 ? named : `${name.slice(0, at)} ${named}`;
}

/** What is said of a line: what it stands in for, then the recipe's own words. @param {SheetLine} line */
export function noteOf({ instead_of: meant, note }) {
  return joined(meant ? say("sheet-instead-of", { name: meant }) : "", note);
}

/**
 * The cautions of a step and of its ways, in full.
 * @param {ByCode & {ways: readonly ByCode[]}} step
 */
export const cautionsOf = (step) => [step, ...step.ways].flatMap(inFull);

/** @param {readonly Step[]} steps */
export const hazardsOf = (steps) =>
  steps.flatMap((step) => [step, ...step.ways]).flatMap((each) => each.hazards);

/** What is answered when it is right. @param {CheckStep} step */
export const yesOf = (step) => step.yes || say("sheet-yes");

/** What helps when it went too far. @param {CheckStep} step */
export const tooFarOf = (step) => step.too_far || say("states-too-wet");

/** What so many pieces are called: "bars". @param {PieceWords} piece @param {number} count */
export function pieceWord({ one, many }, count) {
  if (one === UNNAMED.one && many === UNNAMED.many) return say("sheet-piece", { count });
  return count === 1 ? one : many;
}

/** What each piece is then. @param {PiecesStep} step */
export const verbOf = (step) => step.verb || say("sheet-done");
