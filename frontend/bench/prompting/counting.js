/** Pieces are counted, portion after portion. */

import { joined } from "../brief.js";
import { leftOfMix } from "../journal/index.js";
import { divided, grams, sum } from "../whole.js";
import { answer } from "./answers.js";
import { beforeNext } from "./urgency.js";
/** @import { PieceCount, PiecesStep } from "../../../bench/shapes/page" */
/** @import { Said, View } from "./view.js" */

/** @param {View} view @param {PiecesStep} step @returns {Said} */
export function pieces(view, step) {
  const key = step.id;
  const count = view.state.counts[key] ?? { good: 0, spoiled: 0, partial: 0, of: {} };
  const seen = count.good + count.spoiled + count.partial;
  const made = seen - count.spoiled;
  const wanted = view.state.expected[key];
  const left = Math.max(0, wanted - made);
  const { part, says: partSays, whole } = partInHand(view, step, count);
  const says = partSays || againSays(view, step, count, wanted);
  const sprayed = (view.state.looks[key] ?? []).length;
  const sprayedSays = sprayed ? `Sprayed again ${sprayed === 1 ? "once" : `${sprayed} times`}.` : "";
  const body = { step: key, seen, ...(part === null ? {} : { of: part }) };
  /** @type {[string, number, string]} */
  const [id, good, label] = step.one_by_one
    ? ["one", 1, `One ${step.verb}`]
    : ["all", left, `${left === 1 ? "One" : `All ${left}`} ${step.verb}`];
  const answers = step.ways.map((way, index) =>
    answer(
      `${id}_${way.id}`,
      `${label}: ${way.name}`,
      "counted",
      { ...body, good, way: way.id },
      {
        says: way.says,
        strong: whole && !index,
      },
    ),
  );
  if (!step.ways.length) answers.push(answer(id, label, "counted", { ...body, good }, { strong: whole }));
  const { inRow, ofAll } = inHand(view, step, part, { count, left });
  const told = ofAll ? { step: key, seen } : body;
  const of = ofAll || part === null ? "" : `: ${view.vessels.get(part)?.name}`; // "All 6", of one half
  if (step.one_by_one && !step.ways.length && whole && inRow > 1) {
    answers.push(answer("all", `All ${inRow} ${step.verb}${of}`, "counted", { ...told, good: inRow }));
  }
  const several = step.one_by_one ? `Several ${step.verb}` : "Some other number";
  answers.push(answer("some", several, "counted", body, { input: "count", most: left }));
  if (step.again !== null) {
    answers.push(
      answer(
        "respray",
        "It has dried: spray and work in",
        "looked",
        { step: key, answer: "not_yet" },
        {
          says: step.again,
        },
      ),
    );
  }
  if (step.partial) {
    answers.push(answer("partial", "A small one", "counted", { ...body, partial: 1 }, { strong: !whole }));
  }
  answers.push(answer("spoiled", "One spoiled", "counted", { ...body, spoiled: 1 }));
  answers.push(answer("enough", "None left: stop here", "done", { step: key }));
  return {
    says: joined(step.again && made ? step.again : step.says, sprayedSays, says, beforeNext(view, step)),
    number: { mg: null, text: `${made}`, caption: `of ${wanted} ${step.verb}` },
    answers,
  };
}

/**
 * That what is left of the mix makes good for what was spoiled.
 * @param {View} view @param {PiecesStep} step @param {PieceCount} count @param {number} wanted
 */
function againSays(view, step, count, wanted) {
  const each = step.piece_mg;
  if (step.follows.length || each <= 0 || count.good + count.spoiled + count.partial < wanted) return "";
  const left = leftOfMix(step, (vessel) => view.state.vessels[vessel].in_mg, count, view.sheet);
  const [more] = divided(left, each);
  return more ? `${grams(left, 1000)} left: ${more} more ${more === 1 ? "piece" : "pieces"}.` : "";
}

/**
 * How many whole pieces are told by one touch: all that are left, out of every portion (`ofAll`), where the mix
 * gives them; else those of the portion in hand.
 * @param {View} view @param {PiecesStep} step @param {string | null} part
 * @param {{count: PieceCount, left: number}} counted
 */
function inHand(view, step, part, { count, left }) {
  const each = step.piece_mg;
  if (part === null || each <= 0) return { inRow: left, ofAll: false };
  if (part === "joined") return { inRow: 1, ofAll: false };
  const held = step.of.map((vessel) =>
    Math.max(0, view.state.vessels[vessel].in_mg - (count.of[vessel] ?? 0) * each),
  );
  const all = divided(sum(held) - (count.of.joined ?? 0) * each, each)[0];
  if (left > 1 && left <= all) return { inRow: left, ofAll: true };
  return { inRow: Math.min(left, divided(held[step.of.indexOf(part)], each)[0]), ofAll: false };
}

/**
 * {part, says, whole}: which portion the next piece comes from, what its leftover still makes, and
 * whether a whole one.
 *
 * Portions are used in turn, each as far as it gives whole pieces; what is left of them is then
 * joined into a last, perhaps partial, piece.
 * @param {View} view @param {PiecesStep} step @param {PieceCount} count
 */
function partInHand(view, step, count) {
  const each = step.piece_mg;
  if (!step.of.length || each <= 0) return { part: null, says: "", whole: true };
  /** @type {{name: string, mg: number}[]} */
  const leftovers = [];
  for (const vessel of step.of) {
    const { name } = view.vessels.get(vessel);
    const left = view.state.vessels[vessel].in_mg - (count.of[vessel] ?? 0) * each;
    if (left >= each) {
      const [whole] = divided(left, each);
      const says = `From ${name}: ${whole} more ${whole === 1 ? "piece" : "pieces"} in it.`;
      return { part: vessel, says, whole: true };
    }
    leftovers.push({ name, mg: Math.max(0, left) });
  }
  const left = Math.max(0, sum(leftovers.map(({ mg }) => mg)) - (count.of.joined ?? 0) * each);
  if (left < each) {
    return {
      part: "joined",
      says: `${grams(left, 1000)} left: too little for a ${grams(each, 1000)} piece.`,
      whole: !step.partial,
    };
  }
  const parts = leftovers.filter(({ mg }) => mg).map(({ name, mg }) => `${name} ${grams(mg, 1000)}`);
  const says = `Join what is left: ${parts.join(", ")}. Makes ${divided(left, each)[0]} more.`;
  return { part: "joined", says, whole: true };
}
