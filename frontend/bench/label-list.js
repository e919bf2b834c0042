/**
 * The ingredient list of one finished piece, from what was really weighed. The same as bench/label_list.py, which says
 * what is a guess. Weights of names are BigInt shares of one whole, so an edge of 1.00 % is an edge.
 */

import { allergenName, isNumber, onMarket } from "./label-names.js";
import { FORMER_ALLERGENS } from "./label-table.js";
import { full } from "./lists.js";
import { byCodePoint, halfEven } from "./whole.js";
import { say, sayAll } from "../words.js";
/** @import { LabelName, LabelOptions, ListGroup, Market } from "../../bench/shapes/page" */
/** @import { MeasuredRecipe, Sheet, SheetComponent, Sourced, State } from "../../bench/shapes/page" */
/** @import { Full } from "../../types/lists" */
/** @import { OnLabel } from "./label-table.js" */

const COLOUR_KINDS = ["dye", "lake", "mica", "pigment"];
/**
 * @typedef {"eye" | "skin"} Organ
 * @typedef {ReturnType<typeof begin>} Labelling
 * @typedef {[name: string, ppm: number | null]} InciName
 */

const MOST_RANK = 20;
const PARTS = 232_792_560n; // the least that every rank up to the twentieth divides
const RANKS = PARTS * PARTS;
const MILLION = 1_000_000n;
const SHARED = /^(.*[^ ]) +([0-9]{1,3})(?:\.([0-9]{1,4}))? *%$/;

/**
 * The names of an INCI text with their shares in ppm: "Aqua 40 %, Glycerin" gives Aqua 400000, Glycerin null.
 * @param {string} inci @returns {InciName[]}
 */
export function namesIn(inci) {
  return inci
    .replace(/^[ ,;]+|[ ,;]+$/g, "")
    .split(/[;,] +/)
    .filter((written) => written)
    .map((written) => {
      const shared = SHARED.exec(written);
      return shared
        ? [shared[1], Number(shared[2]) * 10_000 + Number((shared[3] ?? "").padEnd(4, "0"))]
        : [written, null];
    });
}

/**
 * What each name has of the whole, in parts of PPM x ranks, and whether that is known; see bench/label.py.
 * @param {InciName[]} names @returns {[bigint, boolean][]}
 */
export function sharesOf(names) {
  if (names.length === 1 && names[0][1] === null) return [[MILLION * RANKS, true]];
  let written = names.map(([, ppm]) => (ppm === null ? null : BigInt(ppm)));
  let left = MILLION - bigSum(written.map((ppm) => ppm ?? 0n));
  if (left < 0n) [written, left] = [written.map(() => null), MILLION];
  const falls = Math.min(written.filter((ppm) => ppm === null).length, MOST_RANK);
  let rank = 0;
  return written.map((ppm) => {
    if (ppm !== null) return [ppm * RANKS, true];
    rank += 1;
    let fall = 0n;
    for (let each = rank; each <= falls; each += 1) fall += PARTS / BigInt(each);
    return [left * (PARTS / BigInt(falls)) * fall, false];
  });
}

/**
 * @param {MeasuredRecipe} recipe @param {Sheet} sheet @param {State} state @param {Market} market
 * @param {LabelOptions} options
 */
export function begin(recipe, sheet, state, market, options) {
  const known = empty(recipe, sheet, state, market, options);
  weighUp(known);
  return known;
}

/**
 * @param {MeasuredRecipe} recipe @param {Sheet} sheet @param {State} state @param {Market} market
 * @param {LabelOptions} options
 */
function empty(recipe, sheet, state, market, options) {
  return {
    recipe,
    sheet,
    state,
    market,
    options,
    warnings: /** @type {Sourced[]} */ ([]),
    weights: /** @type {Full<string, bigint>} */ (full()), // a name's key -> its share of total
    spelt: /** @type {Full<string, string>} */ (full()),
    unsure: /** @type {Set<string>} */ (new Set()),
    blends: /** @type {Set<string>} */ (new Set()), // whose shares nobody has told
    colours: /** @type {Set<string>} */ (new Set()),
    byHand: /** @type {Set<string>} */ (new Set()),
    allergens: /** @type {Full<string, bigint>} */ (full()),
    newer: /** @type {Set<string>} */ (new Set()), // over their share, and not asked for by this market
    total: 0n,
    used: /** @type {Set<string>} */ (new Set()),
    known: /** @type {Map<string, OnLabel>} */ (new Map()), // what the table says of a name
    harm: /** @type {Map<string, bigint>} */ (new Map()), // what harms eyes or skin, by organ and category
    unclassed: /** @type {Set<string>} */ (new Set()), // of which no class is known here
  };
}

/** @param {Labelling} given @param {string} says @param {string} source */
export function warn({ warnings }, says, source) {
  if (!warnings.some((each) => each.says === says)) warnings.push({ says, source });
}

// What is in a piece

/** What a component gives to one finished piece. @param {SheetComponent} given */
export const pieceMg = ({ takes, piece_mg }) => takes * piece_mg;

/** @template K @param {Map<K, bigint>} map @param {K} key @param {bigint} more */
const add = (map, key, more) => map.set(key, (map.get(key) ?? 0n) + more);
/** @param {bigint[]} numbers */
const bigSum = (numbers) => numbers.reduce((total, each) => total + each, 0n);
/** @type {(one: bigint, other: bigint) => bigint} */
const gcd = (one, other) => (other ? gcd(other, one % other) : one);

/** @param {Labelling} known */
function weighUp(known) {
  const { sheet, state } = known;
  /** @type {Full<string, Map<string, bigint>>} */
  const masses = full(); // component -> ingredient -> mg
  for (const line of sheet.lines) {
    const { in_mg, status } = state.lines[line.id];
    const settled = ["in", "left", "over", "short"].includes(status);
    const mg = in_mg || (settled ? line.about_mg || 0 : 0);
    if (mg) {
      if (!masses.has(line.component)) masses.set(line.component, new Map());
      add(masses.get(line.component), line.ingredient, BigInt(mg));
    } else if (status === "by_hand" || (line.mg === null && settled)) unweighed(known, line.ingredient);
  }
  const made = sheet.components.filter(({ id }) => masses.has(id));
  const sums = made.map(({ id }) => bigSum([...masses.get(id).values()]));
  const pieces = BigInt(sheet.size.pieces);
  // A part of drops alone has no mass on the sheet: what went in, for each piece.
  /** @type {[bigint, Map<string, bigint>][]} */
  const parts = made.map((component, place) => [
    BigInt(pieceMg(component)) || (sums[place] + pieces - 1n) / pieces,
    masses.get(component.id),
  ]);
  const whole = sums.reduce((most, each) => (most * each) / gcd(most, each), 1n);
  parts.forEach(([mg, mix], place) => {
    const scale = mg * (whole / sums[place]);
    known.total += mg * whole * MILLION * RANKS;
    for (const [ingredient, went] of mix) name(known, ingredient, went * scale);
  });
  if (known.blends.size) {
    warn(known, say("label-blends", { names: sayAll([...known.blends]) }), say("label-source-shares"));
  }
}

/** @param {Labelling} known @param {string} ingredient */
function inciOf(known, ingredient) {
  const about = known.recipe.ingredients[ingredient];
  const inci = known.options.cards?.[ingredient]?.inci || about.inci;
  if (!inci) {
    warn(known, say("label-no-inci", { name: about.name }), say("label-source-inci"));
  }
  known.used.add(ingredient);
  const names = namesIn(inci);
  return names.length ? names : [/** @type {InciName} */ ([about.name, null])];
}

/** @param {Labelling} known @param {string} ingredient */
function unweighed(known, ingredient) {
  const about = known.recipe.ingredients[ingredient];
  warn(known, say("label-unweighed", { name: about.name }), say("label-source-weight"));
  for (const [written] of inciOf(known, ingredient)) known.byHand.add(keyOf(known, written));
}

/** A name's key, its spelling for this market kept. @param {Labelling} given @param {string} written */
function keyOf({ market, spelt, known, colours }, written) {
  const [named, about] = onMarket(written, market);
  const key = named.toLowerCase();
  if (!spelt.has(key)) spelt.set(key, named);
  if (about && !known.has(key)) known.set(key, about);
  if (isColour(written, about)) colours.add(key);
  return key;
}

/** @param {string} written @param {OnLabel | null} about */
const isColour = (written, about) => isNumber(written) || Boolean(about?.colour);

/**
 * Shares an ingredient's weight, in units of total / (PPM x ranks), out over its names.
 * @param {Labelling} known @param {string} ingredient @param {bigint} weight
 */
function name(known, ingredient, weight) {
  const about = known.recipe.ingredients[ingredient];
  const found = inciOf(known, ingredient);
  addHarm(known, found, weight);
  /** @type {InciName[]} */
  const names = about.kind === "fragrance" ? [["Parfum", null]] : found;
  const shares = sharesOf(names);
  if (shares.some(([, isKnown]) => !isKnown) || bigSum(shares.map(([share]) => share)) < MILLION * RANKS)
    known.blends.add(about.name);
  const coloured = names.map(([written]) => isColour(written, onMarket(written, known.market)[1]));
  const all = COLOUR_KINDS.includes(about.kind) && !coloured.includes(true);
  names.forEach(([written], place) => {
    const key = keyOf(known, written);
    const [share, isKnown] = shares[place];
    if (!isKnown) known.unsure.add(key);
    add(known.weights, key, weight * share);
    if (all || coloured[place]) known.colours.add(key);
  });
  for (const allergen of about.fragrance?.allergens ?? []) {
    add(known.allergens, keyOf(known, allergenName(allergen.name)), weight * RANKS * BigInt(allergen.ppm));
  }
}

/**
 * Adds up what harms eyes and skin, of a scent too, by the classes of the names that the table knows.
 * @param {Labelling} known @param {InciName[]} names @param {bigint} weight
 */
function addHarm({ market, harm, unclassed }, names, weight) {
  const shares = sharesOf(names);
  names.forEach(([written], place) => {
    const [, about] = onMarket(written, market);
    if (!about) unclassed.add(written);
    for (const organ of /** @type {Organ[]} */ (["eye", "skin"])) {
      if (about?.[organ]) add(harm, `${organ}${about[organ]}`, weight * shares[place][0]);
    }
  });
}

/** @param {Labelling} known @returns {LabelName[]} */
export function rowsOf(known) {
  const { allergens, byHand, colours, market, newer, recipe, spelt, total, unsure } = known;
  const weights = full(known.weights);
  if (market !== "us") {
    if (recipe.stays_on === null && allergens.size) {
      warn(known, say("label-skin"), say("label-source-allergens"));
    }
    const fold = recipe.stays_on === false ? 10_000n : 100_000n;
    for (const [key, weight] of allergens) {
      if (weight * fold <= total) continue;
      if (market === "uk" && !FORMER_ALLERGENS.includes(key)) newer.add(spelt.get(key));
      else if (!weights.has(key)) weights.set(key, weight);
    }
  }
  /** @type {{[G in ListGroup]: string[]}} */
  const groups = { over: [], free: [], by_hand: [], colour: [] };
  /** @param {string} one @param {string} other */
  const heaviest = (one, other) => {
    const more = weights.get(other) - weights.get(one);
    return more ? (more > 0n ? 1 : -1) : byCodePoint(one, other);
  };
  for (const key of [...weights.keys()].sort(heaviest)) {
    const hundredfold = 100n * weights.get(key);
    const free = market === "us" ? hundredfold <= total : hundredfold < total;
    groups[colours.has(key) ? "colour" : free ? "free" : "over"].push(key);
  }
  for (const key of byHand) if (!weights.has(key)) groups[colours.has(key) ? "colour" : "by_hand"].push(key);
  return /** @type {[ListGroup, string[]][]} */ (Object.entries(groups)).flatMap(([group, keys]) =>
    keys.map((key) => {
      const sure = weights.has(key) && !unsure.has(key) && !byHand.has(key);
      return {
        name: spelt.get(key),
        ppm: sure ? halfEven(weights.get(key) * MILLION, total) : null,
        group,
        sure,
      };
    }),
  );
}
