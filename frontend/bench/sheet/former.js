/**
 * Sheets of the first format, read as today's: the same masses, times and ids, and what was said in words as it was.
 * The same as bench/sheet/former.py, which says more.
 */

import { byCode } from "../cautions.js";
import { coded } from "../former-words.js";
import { heatedIn, heats } from "../steps/index.js";
import { divided } from "../whole.js";
/** @import { FormerSheet, InSpoons, MeasuredRecipe, Sheet, Spoonful, StateName } from "../../../bench/shapes/page" */

/**
 * As it was kept: of a shape that is written down no more, so what is read of it here, and the rest as it is.
 *
 * @typedef {{count: number, spares: number, why: string[]}} KeptPart
 * @typedef {{spoons: string, by_spoon?: string, instead_of?: string, note: string}} KeptLine
 * @typedef {{state?: StateName | "", stake: string}} KeptWindow
 * @typedef {{cautions: string[], ways: {cautions: string[]}[], keeps?: KeptWindow[],
 *   [field: string]: unknown}} KeptStep
 * @typedef {{size: {pieces: number}, components: KeptPart[], lines: KeptLine[], vessels: object[],
 *   steps: KeptStep[], warnings: object[]}} KeptSheet
 */

const FORMER = "bowlside-sheet/1";
/** @type {{[field: string]: string}} */
const USUAL = { yes: "yes", too_far: "too_wet", verb: "done" };

/**
 * A sheet as it was kept, of either format, as this version uses it. recipe: says what the first format lacks.
 * @param {Sheet | FormerSheet} kept @param {MeasuredRecipe | null} [recipe] @returns {Sheet}
 */
export function openSheet(kept, recipe = null) {
  const sheet = /** @type {Sheet} */ (
    kept.format === FORMER ? current(/** @type {KeptSheet} */ (/** @type {unknown} */ (kept))) : kept
  );
  return recipe && sheet.written_for === null ? completed(sheet, recipe) : sheet;
}

/** @param {KeptSheet} sheet */
function current(sheet) {
  return {
    ...sheet,
    format: "bowlside-sheet/2",
    written_for: null,
    components: sheet.components.map((part) => ({
      ...part,
      takes: divided(part.count - part.spares, sheet.size.pieces)[0],
      mould: null,
      why: part.why.map((text) => ({ kind: "said", text })),
    })),
    lines: sheet.lines.map(line),
    vessels: sheet.vessels.map((each) => ({ kit: null, ...each })),
    steps: sheet.steps.map(step),
    warnings: sheet.warnings.map((each) => ({ ...each, kind: "said" })),
  };
}

/** @param {KeptLine} given */
function line(given) {
  const { spoons, by_spoon: bySpoon = "", instead_of: meant = "", note } = given;
  // Our own words before a note said what the line stands in for.
  const [before, ...own] = note.split(`: ${meant}.`);
  const isSaid = meant && own.length && coded(before) === "instead_of";
  return {
    ...given,
    spoons: inSpoons(spoons),
    by_spoon: inSpoons(bySpoon),
    instead_of: meant,
    note: isSaid ? own.join(`: ${meant}.`).trimStart() : note,
  };
}

/** Spoons as they were said: "2 tsp + ½ tsp (4 % more)". @param {string} words @returns {InSpoons | null} */
function inSpoons(words) {
  if (!words) return null;
  const part = /^(\d+) % of (.+)$/.exec(words);
  if (part) return { spoons: [{ spoon: part[2], count: 1 }], off_percent: 0, part_percent: Number(part[1]) };
  const off = /^(.+) \((\d+) % (more|less)\)$/.exec(words);
  return {
    spoons: (off ? off[1] : words).split(" + ").map(spoonful),
    off_percent: off ? (off[3] === "more" ? 1 : -1) * Number(off[2]) : 0,
    part_percent: null,
  };
}

/** @param {string} words @returns {Spoonful} */
function spoonful(words) {
  const counted = /^(\d+) (?:× )?(.+)$/.exec(words);
  if (!counted) return { spoon: words, count: 1 };
  return { spoon: counted[2] === "cups" ? "cup" : counted[2], count: Number(counted[1]) };
}

/** @param {KeptStep} given */
function step(given) {
  const unsaid = Object.keys(USUAL).filter((name) => coded(String(given[name] ?? "")) === USUAL[name]);
  return {
    ...given,
    ...Object.fromEntries(unsaid.map((name) => [name, ""])),
    does: "",
    unmoulds: false,
    ...byCode({ cautions: given.cautions }),
    ways: given.ways.map((way) => ({ ...way, ...byCode({ cautions: way.cautions }) })),
    keeps: (given.keeps ?? []).map((over) => ({
      ...over,
      stake: over.state && coded(over.stake) === over.state ? "" : over.stake,
    })),
  };
}

/** @param {Sheet} sheet @param {MeasuredRecipe} recipe @returns {Sheet} */
function completed(sheet, recipe) {
  const parts = new Map(recipe.components.map((part) => [part.id, part]));
  return {
    ...sheet,
    written_for: recipe.written_for,
    components: sheet.components.map((each) => ({ ...each, mould: parts.get(each.id)?.mould ?? null })),
    steps: sheet.steps.map((each) => {
      const part = parts.get(each.component);
      const source = part?.steps.find(({ id }) => id === each.step);
      if (!part || !source) return each;
      const labels = heatedIn(source, part).map((label) => `${part.id}.${each.round}.${label}`);
      const heated = heats(source) ? { vessels: labels } : {};
      return { ...each, does: source.does ?? "", unmoulds: source.unmoulds, ...heated };
    }),
  };
}
