/**
 * What a sheet's codes and values are in words: spoons, cautions, and what a recipe left unsaid.
 * The same as bench/sheet_words.py; its reasons and warnings are in sheet-reasons.js.
 */

import { point, say } from "../words.js";
import { joined } from "./brief.js";
import { inFull } from "./cautions.js";
import { readsIn } from "./weighing.js";
import { mass, reading } from "./whole.js";
/** @import { CheckStep, GoodPiece, InSpoons, PieceWords, PiecesStep, Sheet } from "../../bench/shapes/page" */
/** @import { SheetLine, Spoonful, Start, Step } from "../../bench/shapes/page" */
/** @import { ByCode } from "./cautions.js" */

/** As a measured recipe has them that names none. @type {PieceWords} */
export const UNNAMED = { one: "piece", many: "pieces" };
const UNNAMED_ASSEMBLY = "Assembly"; // the same of an assembly that has no name
const SHARES_OF = "½¼⅛"; // a spoon whose name begins so is a share of another

/** What a part is called; the usual word where an assembly has no name. @param {{id: string, name: string}} part */
export const partName = ({ id, name }) =>
  id === "assembly" && name === UNNAMED_ASSEMBLY ? say("sheet-assembly") : name;

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

/** What is asked. @param {Partial<Pick<CheckStep, "ask" | "looks_at">>} step */
export const askOf = (step) => (step.looks_at ? say("sheet-second-look") : (step.ask ?? ""));

/** What is to be done when it is not right yet. @param {Partial<Pick<CheckStep, "not_yet" | "looks_at">>} step */
export const notYetOf = (step) => (step.looks_at ? say("sheet-second-look-not") : (step.not_yet ?? ""));

/** What is answered when it is right. @param {CheckStep} step */
export const yesOf = (step) => (step.looks_at ? say("sheet-second-look-yes") : step.yes || say("sheet-yes"));

/** What helps when it went too far. @param {CheckStep} step */
export const tooFarOf = (step) => step.too_far || say("states-too-wet");

/** What so many pieces are called: "bars". @param {PieceWords} piece @param {number} count */
export function pieceWord({ one, many }, count) {
  if (one === UNNAMED.one && many === UNNAMED.many) return say("sheet-piece", { count });
  return count === 1 ? one : many;
}

/** What each piece is then. @param {PiecesStep} step */
export const verbOf = (step) => step.verb || say("sheet-done");

/** Whether the maker judges it, in words of its own. @param {string} criterion */
export const isOwn = (criterion) => criterion.startsWith("judge-");

/** What a good piece is known by. @param {GoodPiece} wanted */
export const criterionName = ({ criterion, says }) =>
  isOwn(criterion) ? says : say("sheet-criterion", { criterion });

/** Thousandths of a pH, as makers write it. @param {number} bound */
export const phWords = (bound) => String(bound / 1000).replace(".", point());

/** A mass with no idle decimals. @param {number} mg */
export const plainMass = (mg) => mass(mg, mg % 1000 ? 10 : 1000);

/** How it should be. @param {GoodPiece} wanted */
export function wantedWords({ criterion, least, most, says }) {
  /** @param {number} bound */
  const shown = (bound) => (criterion === "mass" ? plainMass(bound) : phWords(bound));
  if (least !== null && most !== null)
    return say("sheet-between", { least: shown(least), most: shown(most) });
  if (most !== null) return say("sheet-at-most", { bound: shown(most) });
  return least === null ? says : say("sheet-at-least", { bound: shown(least) });
}

/** What must be so before the first weighing. @param {{before?: readonly Start[]}} sheet */
export const startsOf = ({ before = [] }) => before.map((each) => say(`gather-start-${each}`));

/** The weighing of a scale's test weight. @param {Sheet["kit"]["scales"][number]} scale @param {number} weight */
export const proofWords = (scale, weight) =>
  say("prompting-prove", { scale: scale.name, weight: reading(weight, readsIn(scale)) });

/** The test weights of the scales that are weighed on. @param {Sheet} sheet */
export function proofsOf({ kit, lines }) {
  const used = new Set(lines.map(({ scale }) => scale));
  return kit.scales.flatMap((scale) =>
    scale.test_mg && used.has(scale.id) ? [proofWords(scale, scale.test_mg)] : [],
  );
}
