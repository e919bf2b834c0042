/** Pieces are counted, portion after portion. */

import { say } from "../../words.js";
import { joined } from "../brief.js";
import { leftOfMix } from "../journal/index.js";
import { verbOf } from "../sheet-words.js";
import { divided, mass, sum } from "../whole.js";
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
  const sprayedSays = sprayed ? say("prompting-sprayed-again", { times: sprayed }) : "";
  const body = { step: key, seen, ...(part === null ? {} : { of: part }) };
  const verb = verbOf(step);
  /** @type {["one" | "all", number]} */
  const [id, good] = step.one_by_one ? ["one", 1] : ["all", left];
  const label = say(`prompting-made-${id}`, { count: good, verb });
  const answers = step.ways.map((way, index) =>
    answer(
      `${id}_${way.id}`,
      say(`prompting-way-made-${id}`, { count: good, verb, way: way.name }),
      "counted",
      { ...body, good, way: way.id },
      {
        says: way.says,
        strong: whole && !index,
      },
    ),
  );
  if (!step.ways.length) answers.push(answer(id, label, "counted", { ...body, good }, { strong: whole }));
  const several = step.one_by_one ? say("prompting-several-made", { verb }) : say("prompting-other-number");
  answers.push(answer("some", several, "counted", body, { input: "count", most: left }));
  if (step.again !== null) {
    const again = { says: step.again };
    answers.push(
      answer("respray", say("prompting-dried"), "looked", { step: key, answer: "not_yet" }, again),
    );
  }
  if (step.partial) {
    const small = say("prompting-small-piece");
    answers.push(answer("partial", small, "counted", { ...body, partial: 1 }, { strong: !whole }));
  }
  answers.push(answer("spoiled", say("prompting-spoiled"), "counted", { ...body, spoiled: 1 }));
  answers.push(answer("enough", say("prompting-none-left"), "done", { step: key }));
  // It goes before the others do, so it stands last and none of them moves up.
  const { inRow, ofAll } = inHand(view, step, part, { count, left });
  const told = ofAll ? { step: key, seen } : body;
  if (step.one_by_one && !step.ways.length && whole && inRow > 1) {
    const all =
      ofAll || part === null
        ? say("prompting-made-all", { count: inRow, verb })
        : say("prompting-way-made-all", { count: inRow, verb, way: view.vessels.get(part).name }); // of one half
    answers.push(answer("all", all, "counted", { ...told, good: inRow }));
  }
  return {
    says: joined(step.again && made ? step.again : step.says, sprayedSays, says, beforeNext(view, step)),
    number: { mg: null, text: `${made}`, caption: say("prompting-of-wanted", { wanted, verb }) },
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
  return more ? say("prompting-left-makes", { mass: mass(left, 1000), pieces: more }) : "";
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
      return { part: vessel, says: say("prompting-from-portion", { name, pieces: whole }), whole: true };
    }
    leftovers.push({ name, mg: Math.max(0, left) });
  }
  const left = Math.max(0, sum(leftovers.map(({ mg }) => mg)) - (count.of.joined ?? 0) * each);
  if (left < each) {
    return {
      part: "joined",
      says: say("prompting-left-too-little", { mass: mass(left, 1000), piece: mass(each, 1000) }),
      whole: !step.partial,
    };
  }
  const parts = leftovers
    .filter(({ mg }) => mg)
    .map(({ name, mg }) => say("prompting-join-part", { mass: mass(mg, 1000), name }));
  const says = say("prompting-join-left", { parts: parts.join(", "), pieces: divided(left, each)[0] });
  return { part: "joined", says, whole: true };
}
