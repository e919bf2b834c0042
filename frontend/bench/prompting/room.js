/**
 * Before the first pour: how the air is, where damp would spoil the part, and whether the scale reads a test weight
 * right. Both are kept with the batch. Air that is too damp is a question before the first pour, never a refusal.
 */

import { say } from "../../words.js";
import { FIZZ_STOP_RH } from "../air.js";
import { joined } from "../brief.js";
import { last } from "../lists.js";
import { proofWords } from "../sheet-words.js";
import { readsIn } from "../weighing.js";
import { reading } from "../whole.js";
import { answer } from "./answers.js";
import { scaleOf } from "./view.js";
/** @import { SheetLine } from "../../../bench/shapes/page" */
/** @import { Said, View } from "./view.js" */

// Of a scale's test weight, in divisions: NIST Handbook 44, as bench/prompting/room.py says.
const ALLOWED = [
  [500, 1],
  [2000, 2],
  [4000, 3],
];
const BEYOND = 5;
const UNTOUCHED = ["open", "by_hand"];

/**
 * What is said of a first pour, with what is asked and known of the room and of the scale.
 * @param {View} view @param {SheetLine} line @param {Said} said @returns {Said}
 */
export function beforePouring(view, line, said) {
  const { state, sheet } = view;
  const isOfRound = (/** @type {SheetLine} */ each) =>
    each.component === line.component && each.round === line.round;
  if (!sheet.lines.filter(isOfRound).every(({ id }) => UNTOUCHED.includes(state.lines[id].status)))
    return said;
  const isAsked = (sheet.asks_air ?? []).includes(line.component);
  const air = state.air.length ? last(state.air) : null;
  let ofAir = isAsked && !air ? say("prompting-air-first") : "";
  let atHand = said.answers.slice(0, 2);
  const isDamp = air !== null && air.humidity >= FIZZ_STOP_RH;
  if (isAsked && (!air || isDamp))
    atHand = [...atHand, answer("air", say("prompting-air"), "aired", {}, { input: "air" })];
  if (isAsked && air && isDamp) {
    const told = { humidity: air.humidity, most: FIZZ_STOP_RH };
    const ask = say("prompting-damp", told);
    ofAir = say("prompting-damp-now", told); // while it can still be put off: the pour is told once it is in
    atHand = atHand.map((each) => (each.kind === "weighed" ? { ...each, ask } : each));
  }
  const off = offNow(view, line);
  const proved = proof(view, line, said, off !== "");
  const rest = said.answers.slice(2);
  return {
    ...said,
    answers: off ? [...atHand, ...proved, ...rest] : [...atHand, ...rest, ...proved],
    first: joined(said.first ?? "", ofAir, off),
  };
}

/**
 * A weighing of the test weight, while the scale shows nought, until one was right.
 * @param {View} view @param {SheetLine} line @param {Said} said @param {boolean} isOff
 */
function proof(view, line, said, isOff) {
  const scale = scaleOf(view, view.state.lines[line.id].scale);
  const weight = scale?.test_mg;
  const isTold = view.state.proved.some((each) => each.scale === scale?.id);
  if (!scale || !weight || (isTold && !isOff) || said.weigh?.before_mg) return [];
  const id = isTold ? "prove_again" : "prove";
  return [
    answer(
      id,
      proofWords(scale, weight),
      "proved",
      { scale: scale.id, weight_mg: weight },
      { input: "reading" },
    ),
  ];
}

/**
 * That the scale read its test weight wrong, the last time it was looked at.
 * @param {View} view @param {SheetLine} line
 */
function offNow(view, line) {
  const scale = scaleOf(view, view.state.lines[line.id].scale);
  const told = view.state.proved.filter((each) => each.scale === scale?.id);
  if (!scale || !told.length) return "";
  const { mg, weight_mg: weight } = last(told);
  if (Math.abs(mg - weight) <= allowed(weight, scale.division_mg)) return "";
  const division = readsIn(scale);
  return say("prompting-scale-off", {
    scale: scale.name,
    reads: reading(mg, division),
    weight: reading(weight, division),
  });
}

/** How far a scale in use may be off at this weight. @param {number} weight @param {number} division */
function allowed(weight, division) {
  const [, divisions] = ALLOWED.find(([most]) => weight <= most * division) ?? [0, BEYOND];
  return divisions * division;
}
