/** Making a sheet: part by part, round by round; then what comes after what. */

import { say } from "../../words.js";
import { byCode } from "../cautions.js";
import { BenchError } from "../errors.js";
import { full } from "../lists.js";
import { rounds } from "../sizing.js";
import { MOST_PIECES } from "../yields.js";
import { ASSEMBLY } from "../states.js";
import { layOut, putsIn } from "../steps/index.js";
import { product, shareOut, sum } from "../whole.js";
import { checkChoices, chosenLines } from "./chosen.js";
import { addFollows, addHolds, addTails, dropEmpty } from "./follow.js";
import { layLine } from "./lines.js";
import { leaderOf, link } from "./links.js";
import { begin, roundMg, warn } from "./parts.js";
import { layPlaces } from "./places.js";
/** @import { Component, Kit, MeasuredRecipe } from "../../../bench/shapes/page" */
/** @import { RecipeRef, RecipeStep, RoundsReason } from "../../../bench/shapes/page" */
/** @import { Sheet, SheetIngredient, Size, Step, StepHead } from "../../../bench/shapes/page" */
/** @import { Draft } from "../../../types/bench" */
/** @import { Full } from "../../../types/lists" */
/** @import { ChosenLine } from "./chosen.js" */
/** @import { Laying } from "./parts.js" */

const SHEET_FORMAT = "bowlside-sheet/2";

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";

/**
 * The sheet of a measured recipe at a size for a measured kit.
 *
 * ref: {id, version} of the recipe. size: {pieces, without, swaps, weigh}. A BenchError names the
 * field at fault and the way out.
 * @param {MeasuredRecipe} recipe @param {RecipeRef} ref @param {Size} size @param {Kit} kit @returns {Sheet}
 */
export function makeSheet(recipe, ref, size, kit) {
  if (!(size.pieces >= 1 && size.pieces <= MOST_PIECES)) {
    throw new BenchError("pieces", say("sizes-out-of-range", { most: MOST_PIECES, count: size.pieces }));
  }
  const draft = begin(recipe, size, kit);
  checkChoices(draft);
  const chosen = full(
    draft.components.map((component) => /** @type {const} */ ([component.id, chosenLines(draft, component)])),
  );
  const counts = countRounds(draft);
  const about = draft.components.map((component, place) => {
    const { perRound, why } = counts.get(component.id);
    const masses = perRound.map((count) => roundMg(draft, component, count, chosen.get(component.id)));
    masses.forEach((mass, index) => {
      layRound(draft, component, index + 1, perRound[index], mass, chosen.get(component.id));
    });
    return {
      id: component.id,
      letter: LETTERS[place],
      name: component.name,
      takes: component.takes,
      mould: component.mould,
      count: sum(perRound),
      spares: component.spares,
      piece_mg: component.piece_mg,
      stays_behind_mg: component.stays_behind_mg,
      loss_ppm: component.loss_ppm,
      make_mg: sum(masses),
      rounds: masses.map((mass, index) => ({ round: index + 1, count: perRound[index], make_mg: mass })),
      why,
    };
  });
  link(draft, counts);
  addFollows(draft.steps, full(draft.components.map(({ id, takes }) => [id, takes])));
  dropEmpty(draft.steps);
  addTails(draft.steps);
  addHolds(draft.steps);
  return {
    format: SHEET_FORMAT,
    recipe: { id: ref.id, version: ref.version, title: recipe.title },
    size: { pieces: size.pieces, without: [...size.without].sort(), swaps: size.swaps, weigh: size.weigh },
    written_for: recipe.written_for,
    piece: recipe.piece,
    ...(recipe.good_piece ? { good_piece: recipe.good_piece } : {}),
    ...(recipe.before ? { before: recipe.before } : {}),
    kit,
    components: about,
    ingredients: totals(draft),
    lines: draft.lines,
    vessels: draft.vessels,
    steps: draft.steps,
    warnings: draft.warnings,
    ...(recipe.asks_air ? { asks_air: recipe.asks_air } : {}),
  };
}

/** Pieces per round and the reasons, for every component; the assembly follows its windows. @param {Laying} draft */
function countRounds(draft) {
  /** @type {Full<string, {perRound: number[], why: RoundsReason[]}>} */
  const counts = full();
  for (const component of draft.components) {
    if (component.id === ASSEMBLY) {
      const leader = leaderOf(component);
      const led = leader ? counts.get(leader.component).perRound : [];
      if (led.length > 1) {
        const name = draft.components.find((each) => each.id === leader?.component)?.name ?? "";
        counts.set(ASSEMBLY, {
          perRound: shareOut(draft.size.pieces, led),
          why: [{ kind: "at_once", name, rounds: led.length }],
        });
      } else {
        counts.set(ASSEMBLY, { perRound: [draft.size.pieces], why: [] });
      }
      continue;
    }
    const mould = component.mould;
    if (mould && !draft.kit.moulds.some((each) => each.shape === mould.shape)) {
      warn(draft, { where: component.id, kind: "no_mould", shape: mould.shape });
    }
    const count = draft.size.pieces * component.takes + component.spares;
    counts.set(component.id, rounds(component, draft.kit, count));
  }
  return counts;
}

/**
 * @param {Laying} draft @param {Component} component @param {number} number @param {number} count @param {number} mass
 * @param {ChosenLine[]} chosen
 */
function layRound(draft, component, number, count, mass, chosen) {
  const weights = chosen.map((line) => line.ug ?? 0);
  const shares = shareOut(mass, weights);
  const masses = full(chosen.map((line, index) => /** @type {const} */ ([line.id, shares[index]])));
  // Volumes, drops and counts grow with the mass of the component, or with the pieces where it
  // has no weighed line at all.
  const whole = sum(weights);
  const writtenCount = draft.recipe.written_for * component.takes + component.spares;
  const factor = whole ? { top: product(mass, 1000), bottom: whole } : { top: count, bottom: writtenCount };
  const weighedIn = new Map(
    component.steps
      .filter((step) => putsIn(step))
      .flatMap((step) => step.lines.map((key) => /** @type {const} */ ([key, step]))),
  );
  const places = layPlaces(draft, component, number, chosen, masses, weighedIn);
  for (const line of chosen) {
    const step = weighedIn.get(line.id);
    layLine(draft, component, number, line, masses.get(line.id), factor, step, step && places.get(step.into));
  }
  const ingredients = full(
    chosen.map((line) => /** @type {const} */ ([line.id, draft.recipe.ingredients[line.ingredient]])),
  );
  const { heaters } = draft.kit;
  const prefix = `${component.id}.${number}`;
  const batch = { component, prefix, count, masses, ingredients, heaters };
  for (const step of component.steps)
    draft.steps.push(/** @type {Draft<Step>} */ (layOut(step, headOf(step, component.id, number), batch)));
}

/**
 * What all kinds share. `after` and what follows from it is filled in once every round is laid out.
 * @param {RecipeStep} step @param {string} component @param {number} round @returns {StepHead}
 */
function headOf(step, component, round) {
  return {
    id: `${component}.${round}.${step.id}`,
    component,
    round,
    step: step.id,
    title: step.title,
    says: step.says,
    reason: step.reason,
    after: [],
    optional: step.optional,
    does: step.does ?? "",
    unmoulds: step.unmoulds,
    ...byCode(step),
    ways: step.ways.map((way) => ({ id: way.id, name: way.name, says: way.says, ...byCode(way) })),
    window: null,
    keeps: [],
    hands_ms: step.hands_ms,
    tools: step.tools,
    tail_ms: 0,
    hold_for: [],
  };
}

/** @param {Laying} draft */
function totals({ lines, recipe }) {
  // The most of the finished piece that an ingredient's own papers allow; nothing where they do not say.
  const limitOf = (/** @type {string} */ key) => {
    const limit = recipe.ingredients[key].fragrance?.limit_ppm ?? null;
    return limit === null ? {} : { limit_ppm: limit };
  };
  /** @type {Full<string, Draft<SheetIngredient>>} */
  const found = full();
  for (const line of lines) {
    if (!found.has(line.ingredient)) {
      found.set(line.ingredient, {
        id: line.ingredient,
        name: line.name,
        mg: 0,
        nl: 0,
        count: 0,
        ...limitOf(line.ingredient),
      });
    }
    const total = found.get(line.ingredient);
    total.mg += line.mg || line.about_mg || 0;
    total.nl += line.nl ?? 0;
    total.count += line.count ?? 0;
  }
  return [...found.values()];
}
