/** Past tolerance or short of it: what there is to do about it, and what each choice makes of it. */

import { say } from "../../words.js";
import { joined } from "../brief.js";
import { sharesOf, weighedLines } from "../capacity.js";
import { carryUp } from "../journal/index.js";
import { partName } from "../sheet-words.js";
import { carryFactor } from "../weighing.js";
import { apart, PPM, reading, sum, toDivision } from "../whole.js";
import { answer } from "./answers.js";
import { carry, carryRest } from "./carrying.js";
import { filling, onScale } from "./on-scale.js";
import { carried, divisionNow } from "./view.js";
/** @import { Division } from "../whole.js" */
/** @import { Answer, SheetLine } from "../../../bench/shapes/page" */
/** @import { Draft, WeighedLine, WeighedState } from "../../../types/bench" */
/** @import { Said, View } from "./view.js" */

/**
 * Past tolerance: take some out, leave it, or carry the rest up to match.
 * @param {View} view @param {WeighedLine} line @param {WeighedState} told
 * @returns {Said}
 */
export function over(view, line, told) {
  const mg = told.in_mg - told.target_mg;
  const division = divisionNow(view, line);
  const [num, den] = carryUp(view.sheet, view.state, line.component, line.round);
  const toTake = Math.max(toDivision(mg, division), division.mg);
  const shown = reading(toTake, division);
  // After a choice to make less, what was in already is over by that choice: it stays.
  const madeLess = carried(view, line) < 0;
  return {
    kind: "over",
    title: say("prompting-too-much", { name: line.name, mass: shown }),
    says: joined(limitSays(view, line, told), filling(view, line), wentIn(told, division)),
    number: { mg, text: `+${shown}`, caption: say("prompting-too-much-caption") },
    weigh: onScale(view, line, { how: "over", add: -mg, amount: shown, reads: null, before: 0 }),
    answers: once(told.twice, [
      answer(
        "take_out",
        say("prompting-take-out", { mass: shown }),
        "taken_out",
        { line: line.id, mg: toTake, seen: told.in_mg },
        { strong: !madeLess },
      ),
      { ...leave(view, line, told), strong: madeLess },
      ...carry(view, line, "up", [num, den]),
    ]),
  };
}

/**
 * These answers, and before them the usual one where two devices told one thing: that it was one.
 * @param {string | null} twice @param {Draft<Answer>[]} answers
 */
export function once(twice, answers) {
  if (twice === null) return answers;
  const says = say("prompting-entered-twice-says");
  const label = say("prompting-entered-twice");
  return [
    answer("told_twice", label, "undone", { entry: twice }, { says, strong: true }),
    ...answers.map((each) => ({ ...each, strong: false })),
  ];
}

/**
 * Short of the target: add the rest, leave it, or make less to match.
 * @param {View} view @param {WeighedLine} line @param {WeighedState} told @param {Said} adding
 * @returns {Said}
 */
export function short(view, line, told, adding) {
  const division = divisionNow(view, line);
  const missing = reading(told.target_mg - told.in_mg, division);
  return {
    ...adding,
    kind: "short",
    first: "",
    title: say("prompting-too-little", { name: line.name, mass: missing }),
    says: wentIn(told, division),
    answers: adding.answers.filter(({ id }) => id !== "zeroed"),
  };
}

/**
 * What else there is to do about too little: leave it, or make less to match. Where more of the others is in
 * already than that would ask for, only what is still to come can be less.
 * @param {View} view @param {WeighedLine} line @param {WeighedState} told
 */
export function letBe(view, line, told) {
  const less = carry(view, line, "down", carryFactor([[told.in_mg, line.mg]]));
  return [leave(view, line, told), ...(less.length ? less : carryRest(view, line))];
}

/** @param {View} view @param {SheetLine} line @param {WeighedState} told */
function leave(view, line, told) {
  const says = newShare(view, line, told);
  return answer("leave", say("prompting-leave"), "left", { line: line.id }, { says });
}

/** @param {WeighedState} told @param {Division} division */
function wentIn(told, division) {
  const held = reading(told.in_mg, division);
  return say("prompting-in-and-target", {
    held,
    target: reading(toDivision(told.target_mg, division), division),
  });
}

/**
 * What leaving it does: the line's share of its component, as it becomes and as it was meant.
 * @param {View} view @param {SheetLine} line @param {WeighedState} told
 */
function newShare(view, line, told) {
  const meant = sum(weighedLines(view.sheet, line).map((each) => view.state.lines[each.id].target_mg ?? 0));
  const becomes = meant - told.target_mg + told.in_mg;
  const part = partName(view.components.get(line.component));
  const { name } = line;
  const [share, was] = apart([told.in_mg, becomes], [told.target_mg, meant]);
  const said =
    share === was
      ? say("prompting-share-stays", { name, share, part })
      : say("prompting-share-becomes", { name, share, part, was });
  return joined(said, limitSays(view, line, told));
}

/**
 * That what went in passes the limit of the ingredient's own papers, in the part and in the piece.
 * @param {View} view @param {SheetLine} line @param {WeighedState} told
 */
function limitSays({ sheet, state, components }, { id, ingredient, component: part }, told) {
  const limit = sheet.ingredients.find((each) => each.id === ingredient)?.limit_ppm ?? null;
  if (limit === null) return "";
  const shares = (/** @type {number} */ mg) => sharesOf(sheet, state, new Map([[id, mg]]), ingredient, part);
  const [ofPart, ofPiece] = shares(told.in_mg);
  const [askedPart, askedPiece] = shares(told.target_mg);
  if (
    Math.max(ofPart, ofPiece) <= limit ||
    ofPart < askedPart ||
    (ofPart === askedPart && ofPiece <= askedPiece)
  )
    return "";
  const [partSays, limitSaid] = apart([ofPart, PPM], [limit, PPM]);
  const [pieceSays] = apart([ofPiece, PPM], [limit, PPM]);
  const { name } = components.get(part);
  return say("prompting-past-limit", { ofPart: partSays, part: name, ofPiece: pieceSays, limit: limitSaid });
}
