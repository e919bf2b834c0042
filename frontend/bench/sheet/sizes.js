/** "How big?" turned into a size. */

import { say } from "../../words.js";
import { BenchError } from "../errors.js";
import { cavities } from "../sizing.js";
import { makeMg, MOST_PIECES, piecesFrom } from "../yields.js";
import { pieceWord } from "../sheet-words.js";
import { ASSEMBLY } from "../states.js";
import { ceiling, divided, mass, sum } from "../whole.js";
import { makeSheet } from "./making.js";
/** @import { ChosenSize, Component, Kit, MeasuredRecipe, Sheet, Size } from "../../../bench/shapes/page" */
/** @import { SizeRequest } from "../../../bench/shapes/page" */

/**
 * @typedef {(pieces: number, says: string, out?: string | null) => ChosenSize} Sized
 * @typedef {Omit<Size, "pieces">} Choices
 */

/**
 * Turns "how big?" into a size: {size, says, runs_out}.
 *
 * request: {by: "pieces", pieces} | {by: "mass", mg} | {by: "moulds", component, moulds} |
 * {by: "mix", component, mg} (that much of its mix is left to use up) |
 * {by: "stock", stock: {ingredient: mg}}, and optionally without, swaps and weigh. runs_out names
 * the ingredient that stops a larger batch (by stock only).
 * @param {MeasuredRecipe} recipe @param {Kit} kit @param {SizeRequest} request @returns {ChosenSize}
 */
export function chooseSize(recipe, kit, request) {
  /** @type {Choices} */
  const chosen = {
    without: [...(request.without ?? [])].sort(),
    swaps: request.swaps ?? {},
    weigh: request.weigh ?? "running",
  };
  /** @type {Sized} */
  const sized = (pieces, says, out = null) => ({ size: { pieces, ...chosen }, says, runs_out: out });
  if (request.by === "pieces") return sized(request.pieces, "");
  if (request.by === "mass") {
    const each = sum(recipe.components.map((component) => component.takes * component.piece_mg));
    const pieces = each ? Math.min(divided(request.mg, each)[0], MOST_PIECES) : 0;
    if (pieces < 1) {
      throw new BenchError("mg", say("sizes-too-light", { mass: mass(each, 1000) }));
    }
    const says = say(pieces === MOST_PIECES ? "sizes-by-mass-most" : "sizes-by-mass", {
      count: pieces,
      many: pieceWord(recipe.piece, pieces),
      each: mass(each, 1000),
      mass: mass(pieces * each, 1000),
    });
    return sized(pieces, says);
  }
  if (request.by === "moulds") {
    const component = recipe.components.find((each) => each.id === request.component);
    const held = component ? mouldCavities(kit, component) : null;
    if (!component || held === null) {
      throw new BenchError(
        "component",
        say("sizes-no-mould", { part: component?.name ?? request.component }),
      );
    }
    const [most] = divided(request.moulds * held - component.spares, component.takes);
    const pieces = Math.min(most, MOST_PIECES);
    if (pieces < 1) {
      throw new BenchError("moulds", say("sizes-few-moulds"));
    }
    const many = pieceWord(recipe.piece, pieces);
    return sized(pieces, say("sizes-by-moulds", { moulds: request.moulds, held, count: pieces, many }));
  }
  if (request.by === "mix") return sizeByMix(recipe, request.component, request.mg, sized);
  return sizeByStock(recipe, kit, request.stock, chosen, sized);
}

/**
 * Cavities in one set of the moulds that fit, whether or not they are held through a wait.
 * @param {Kit} kit @param {Component} component
 */
function mouldCavities(kit, component) {
  if (!component.mould) return null;
  return cavities(kit, { ...component, mould: { ...component.mould, held: true } });
}

/**
 * How many whole pieces a mix that is left gives, spares and what stays behind taken off first.
 * @param {MeasuredRecipe} recipe @param {string} id @param {number} mg @param {Sized} sized
 */
function sizeByMix(recipe, id, mg, sized) {
  const weighed = recipe.components.filter((each) => each.id !== ASSEMBLY && each.piece_mg);
  const component = weighed.find((each) => each.id === id);
  if (!component) {
    const could = weighed.map((each) => each.id).join(", ");
    const says = could ? say("sizes-part", { part: id, could }) : say("sizes-no-part", { part: id });
    throw new BenchError("component", says);
  }
  const [most] = divided(piecesFrom(component, mg) - component.spares, component.takes);
  const pieces = Math.min(most, MOST_PIECES);
  if (pieces < 1) {
    const least = makeMg(component, component.takes + component.spares);
    const wanted = mass(ceiling(least, 1000) * 1000, 1000);
    throw new BenchError("mg", say("sizes-little-mix", { part: component.name, mass: wanted }));
  }
  const given = `${pieces} ${pieceWord(recipe.piece, pieces)}`;
  return sized(pieces, say("sizes-by-mix", { part: component.name, mass: mass(mg, 1000), pieces: given }));
}

/**
 * The largest batch the stock allows, by halving: every need grows with the pieces.
 * @param {MeasuredRecipe} recipe @param {Kit} kit @param {{[ingredient: string]: number}} stock @param {Choices} chosen
 * @param {Sized} sized
 */
function sizeByStock(recipe, kit, stock, chosen, sized) {
  for (const key of Object.keys(stock)) {
    if (!Object.hasOwn(recipe.ingredients, key)) {
      throw new BenchError(`stock.${key}`, say("sizes-no-ingredient", { name: key }));
    }
    if (!isWeighed(recipe, key)) {
      const { name } = recipe.ingredients[key];
      throw new BenchError(`stock.${key}`, say("sizes-unweighed", { name }));
    }
  }
  /** What is short for this many: null when nothing is, "" when the kit cannot make so many. @param {number} pieces */
  const short = (pieces) => {
    /** @type {Sheet} */
    let sheet;
    try {
      sheet = makeSheet(recipe, { id: "", version: 0 }, { pieces, ...chosen }, kit);
    } catch (error) {
      if (pieces === 1 || !(error instanceof BenchError)) throw error;
      return "";
    }
    // The one that runs out first is the one furthest from enough.
    const needs = new Map(sheet.ingredients.map((each) => [each.id, each.mg]));
    const lacking = Object.keys(stock)
      .filter((key) => (needs.get(key) ?? 0) > stock[key])
      .map((key) => ({ key, share: (BigInt(stock[key]) * 10n ** 9n) / BigInt(needs.get(key) ?? 0) }))
      .sort((one, other) =>
        one.share === other.share ? (one.key < other.key ? -1 : 1) : one.share < other.share ? -1 : 1,
      );
    return lacking[0]?.key ?? null;
  };
  const first = short(1);
  if (first !== null) {
    throw new BenchError(`stock.${first}`, say("sizes-too-little", { name: recipe.ingredients[first].name }));
  }
  let [low, high] = [1, MOST_PIECES];
  if (short(high) === null)
    return sized(high, say("sizes-most", { count: high, many: pieceWord(recipe.piece, high) }));
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (short(middle) === null) low = middle;
    else high = middle;
  }
  const out = short(low + 1);
  const pieces = `${low} ${pieceWord(recipe.piece, low)}`;
  const says = out
    ? say("sizes-runs-out", { pieces, name: recipe.ingredients[out].name })
    : say("sizes-kit-takes", { pieces });
  return sized(low, says, out || null);
}

/**
 * Whether any line, or a stand-in for one, takes this ingredient by weight.
 * @param {MeasuredRecipe} recipe @param {string} ingredient
 */
function isWeighed(recipe, ingredient) {
  const lines = recipe.components.flatMap((component) => component.lines);
  const measures = [...lines, ...lines.flatMap((line) => line.substitutes)];
  return measures.some((each) => each.ingredient === ingredient && each.ug);
}
