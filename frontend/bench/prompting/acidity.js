/**
 * The pH, where the recipe says which a good piece has: asked at the check that names it, else before the batch ends.
 * What was read is kept as an entry, `met`. The same as bench/prompting/acidity.py.
 */

import { say } from "../../words.js";
import { last } from "../lists.js";
import { phWords } from "../sheet-words.js";
import { isJudged } from "../steps/index.js";
import { answer } from "./answers.js";
/** @import { GoodPiece, Step } from "../../../bench/shapes/page" */
/** @import { View } from "./view.js" */

const NAMED = /\bpH\b/;

/** Both answers, each of which wants what was read. @param {View} view @param {Step | null} step null at the end */
export function phAnswers(view, step) {
  const wanted = wantedOf(view);
  const isMet = view.state.met.ph?.answer === "yes";
  if (!wanted || isMet || askedAt(view) !== (step?.id ?? null)) return [];
  const [words, says] = [wantedWords(wanted), say("prompting-ph-says")];
  return /** @type {const} */ (["yes", "no"]).map((each) =>
    answer(
      `ph_${each}`,
      say("prompting-ph", { wanted: words, answer: each }),
      "met",
      { criterion: "ph", answer: each },
      { says, input: "note" },
    ),
  );
}

/** What is said before the end; "" where nothing is asked there. @param {View} view */
export function phFirst(view) {
  const wanted = wantedOf(view);
  return wanted && phAnswers(view, null).length
    ? say("prompting-ph-first", { wanted: wantedWords(wanted) })
    : "";
}

/** @param {GoodPiece} wanted */
function wantedWords({ least, most }) {
  const bounds = least !== null && most !== null ? "both" : least === null ? "most" : "least";
  return say("prompting-ph-wanted", { bounds, least: shown(least), most: shown(most) });
}

/** @param {View} view */
const wantedOf = ({ sheet }) => (sheet.good_piece ?? []).find(({ criterion }) => criterion === "ph");

/** The last check whose own words name it, by id; null: none does, and the end asks. @param {View} view */
function askedAt({ sheet }) {
  const named = sheet.steps.filter(
    (each) => isJudged(each) && NAMED.test(`${each.title} ${each.ask} ${each.says}`),
  );
  return named.length ? last(named).id : null;
}

/** @param {number | null} thousandths */
const shown = (thousandths) => (thousandths === null ? "" : phWords(thousandths));
