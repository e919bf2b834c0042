/** Gathering: everything a sheet needs before the first weighing. The same as bench/gather.py. */

import { STARTS } from "./deviations.js";
import { isPast, pick } from "./lots.js";
import { cautionsOf, hazardsOf } from "./sheet-words.js";
import { WRAP } from "./journal/tally.js";
import { cardFor, isBarred, leftOf, papersAbout, papersDue, verdictOf } from "./shelf.js";
import { sum } from "./whole.js";
import { say } from "../words.js";
import { divides, heats } from "./steps/index.js";
/** @import { Gather, GatherIngredient, GatherLot } from "../../bench/shapes/page" */
/** @import { GatherThing, Hazard, MeasuredRecipe } from "../../bench/shapes/page" */
/** @import { Sheet, SheetIngredient, Shelf, Start, State, ThingKind } from "../../bench/shapes/page" */
/** @import { Draft } from "../../types/bench" */
/** @import { Use } from "./shelf.js" */

/** What to wear or lay ready; see bench/gather.py. @type {{[H in Hazard]?: readonly string[]}} */
const PROTECTION = {
  hot_soap: ["heatproof_gloves", "long_sleeves", "cold_water_near"],
  hot_fat: ["heatproof_gloves", "lid_for_the_pan"],
  powder: ["dust_mask", "eye_protection"],
  alcohol: ["window_open", "heaters_and_flames_off"],
  wet_sockets: ["dry_towel"],
  superheated: ["heatproof_gloves"],
  slippery: ["floor_cloth"],
};

/**
 * What to gather; `uses` is of all other runs, `on` the maker's day.
 * @param {MeasuredRecipe} recipe @param {Sheet} sheet @param {State} state
 * @param {Shelf} shelf @param {{[lot: string]: Use[]}} uses @param {string} on @param {boolean} [pastToo]
 * @param {readonly Start[]} [before] what is asked before every batch, beside what the recipe asks @returns {Gather}
 */
export function gather(recipe, sheet, state, shelf, uses, on, pastToo = false, before = []) {
  const things = [...startsFor(sheet, before), ...thingsFor(recipe, sheet)].map((each) => ({
    ...each,
    ticked: Object.hasOwn(state.ticked, each.thing),
  }));
  const ingredients = ingredientsFor(sheet, state.gathered, shelf, uses, on, pastToo);
  const still = ingredients.filter(({ lots }) => !lots.some((lot) => lot.gathered));
  const open = still.length + things.filter(({ ticked }) => !ticked).length;
  return { ingredients, things, cautions: [...new Set(sheet.steps.flatMap(cautionsOf))], open };
}

/**
 * What goes in, and which lots of it; `taken` are those that were gathered for it.
 * @param {Sheet} sheet @param {State["gathered"]} taken @param {Shelf} shelf @param {{[lot: string]: Use[]}} uses
 * @param {string} on @param {boolean} [pastToo] @returns {GatherIngredient[]}
 */
export const ingredientsFor = (sheet, taken, shelf, uses, on, pastToo = false) =>
  [...sheet.ingredients, ...wrapsOf(sheet, shelf)].map((need) =>
    gathered(need, sheet, taken, shelf, uses, on, pastToo),
  );

/**
 * What the pieces are wrapped in, one each, which no sheet lists: where a step wraps and a card answers to "wrap".
 * @param {Sheet} sheet @param {Shelf} shelf @returns {SheetIngredient[]}
 */
function wrapsOf({ steps, size }, shelf) {
  const key = cardFor(shelf, WRAP);
  if (key === null || !steps.some(({ does }) => does === "wrap")) return [];
  const name = shelf.ingredients[key].card?.name ?? key;
  return [{ id: WRAP, name, mg: 0, nl: 0, count: size.pieces }];
}

/**
 * @param {SheetIngredient} need @param {Sheet} sheet @param {State["gathered"]} taken
 * @param {Shelf} shelf @param {{[lot: string]: Use[]}} uses @param {string} on @param {boolean} pastToo
 * @returns {GatherIngredient}
 */
function gathered(need, sheet, taken, shelf, uses, on, pastToo) {
  const key = cardFor(shelf, need.name);
  const pieces = sheet.lines.filter(({ ingredient, unit }) => ingredient === need.id && unit === "pieces");
  const counted = need.id === WRAP ? need.count : sum(pieces.map(({ count }) => count ?? 0));
  const wanted = need.mg || counted;
  const measure = need.mg ? "mg" : "count";
  const rest = (/** @type {string} */ id) =>
    leftOf(shelf.lots[id], (Object.hasOwn(uses, id) && uses[id]) || []);
  const could = Object.entries(shelf.lots)
    .filter(([, lot]) => key !== null && lot.ingredient === key && (!wanted || lot[measure] !== null))
    .map(([id, lot]) => ({
      lot: id,
      left: rest(id),
      best_before: lot.best_before,
      received_on: lot.received_on,
      // One that was taken all the same counts as there.
      barred: isBarred(lot) && !taken.some((each) => each.ingredient === need.id && each.lot === id),
    }));
  const chosen = pick(wanted || 1, could, on, pastToo); // of what goes by hand, the lot whose turn it is
  /** @param {string} id @param {number} take @returns {Draft<GatherLot>} */
  const row = (id, take) => {
    const lot = Object.hasOwn(shelf.lots, id) ? shelf.lots[id] : null;
    const best_before = lot?.best_before ?? null;
    return {
      lot: id,
      number: lot?.number ?? null,
      best_before,
      left: lot && rest(id),
      take,
      past: isPast(best_before, on),
      verdict: lot && verdictOf(lot),
      papers_due: lot ? papersDue(papersAbout(shelf, lot), on) : [],
      gathered: false,
    };
  };
  const rows = chosen.picked.map(({ lot, take }) => row(lot, wanted ? take : 0));
  for (const each of taken.filter(({ ingredient }) => ingredient === need.id)) {
    let found = rows.find(({ lot }) => lot === each.lot);
    if (!found) rows.push((found = row(each.lot, each.mg ?? (each.count || 0))));
    found.gathered = true;
  }
  return {
    ingredient: need.id,
    name: need.name,
    mg: need.mg,
    division_mg: divisionOf(need, sheet),
    count: counted,
    shelf: key,
    lots: rows,
    short: wanted ? chosen.short : 0,
    passed_over: chosen.passed_over,
    barred: chosen.barred,
    by_hand: !wanted,
  };
}

/**
 * The finest division that an ingredient is weighed at, in mg: finer than that nobody can lay out.
 * @param {SheetIngredient} need @param {Sheet} sheet
 */
function divisionOf({ id }, { lines }) {
  const divisions = lines.flatMap(({ ingredient, division_mg: each }) =>
    ingredient === id && each ? [each] : [],
  );
  return divisions.length ? Math.min(...divisions) : 1;
}

/**
 * Something to lay out: its kind, what its key is made of, and its name.
 * @typedef {readonly [kind: ThingKind, known: string, name: string]} Found
 */

/** @param {ThingKind} kind @param {readonly {name: string}[]} things @returns {Found[]} */
const named = (kind, things) => things.map(({ name }) => [kind, name, name]);

/** What the sheet's cautions ask to wear or lay ready. @param {Sheet} sheet @returns {Found[]} */
const wornFor = (sheet) =>
  [...new Set(hazardsOf(sheet.steps))]
    .flatMap((hazard) => PROTECTION[hazard] ?? [])
    .map((thing) => ["protection", thing, say("gather-protection", { thing })]);

/**
 * What is asked before the first weighing: one question each.
 * @param {Sheet} sheet @param {readonly Start[]} before @returns {Omit<GatherThing, "ticked">[]}
 */
function startsFor(sheet, before) {
  const asked = [...before, ...(sheet.before ?? [])];
  return STARTS.filter((each) => asked.includes(each)).map((each) => ({
    thing: `start.${each}`,
    kind: "start",
    name: say(`gather-start-${each}`),
  }));
}

/**
 * Scales, vessels, moulds, heaters, tools and protection, each once.
 * @param {MeasuredRecipe} recipe @param {Sheet} sheet
 */
export function thingsFor(recipe, sheet) {
  const { kit, lines, steps, vessels } = sheet;
  const scales = new Set([...lines, ...vessels].map(({ scale }) => scale));
  const heaters = new Set(steps.filter((step) => heats(step)).map(({ heater }) => heater));
  const shapes = new Set(recipe.components.map(({ mould }) => mould?.shape));
  const splits = steps
    .filter((step) => divides(step))
    .map((step) => step.portions.map(({ vessel }) => vessel));
  const portions = new Set(splits.flat());
  const stay = new Set(splits.map((each) => each.at(-1))); // the last portion stays in its bowl
  /** @type {Found[]} */
  const found = [
    ...named(
      "scale",
      kit.scales.filter(({ id }) => scales.has(id)),
    ),
    ...named(
      "vessel",
      vessels.filter(({ id }) => !portions.has(id)),
    ),
    ...vessels
      .filter(({ id }) => portions.has(id) && !stay.has(id))
      .map(
        ({ name }) => /** @type {const} */ (["vessel", `for ${name}`, say("gather-vessel-for", { name })]),
      ),
    ...(lines.some(({ cup }) => cup)
      ? [/** @type {const} */ (["vessel", "small cup", say("gather-small-cup")])]
      : []),
    ...named(
      "mould",
      kit.moulds.filter(({ shape }) => shapes.has(shape)),
    ),
    ...named(
      "heater",
      kit.heaters.filter(({ name }) => heaters.has(name)),
    ),
    ...named(
      "tool",
      steps.flatMap(({ tools }) => tools.map((name) => ({ name }))),
    ),
    ...wornFor(sheet),
  ];
  const wornToo = new Set(found.filter(([kind]) => kind === "protection").map(([, known]) => slug(known)));
  /** @type {Map<string, Omit<GatherThing, "ticked">>} */
  const things = new Map();
  for (const [kind, known, name] of found) {
    const thing = `${kind}.${slug(known)}`;
    if (kind === "tool" && wornToo.has(slug(known))) continue; // it is laid out once, with what is worn
    if (!things.has(thing)) things.set(thing, { thing, kind, name });
  }
  return [...things.values()];
}

/**
 * A name as part of an entry's key: small letters and digits stay, other ASCII is "_", the rest is its code point.
 * @param {string} name
 */
function slug(name) {
  return [...name]
    .map((each) => {
      if (each > "\u007f") return Number(each.codePointAt(0)).toString(16);
      return /[A-Za-z0-9]/.test(each) ? each.toLowerCase() : "_";
    })
    .join("")
    .slice(0, 100);
}
