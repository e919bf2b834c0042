// Where in a recipe a path leads, as a maker reads it: what the field there is called, and what its value says.
//
//   fieldAt("components.0.lines.2.amount")?.label      // "amount", a code of the catalogue

import { fieldsOf, labelOf, choicesOf } from "./recipe-fields.js";
import {
  COMPONENT,
  COMPONENT_MORE,
  INGREDIENT,
  INGREDIENT_OF_KIND,
  KIND_NAMES,
  KINDS,
  kindName,
  LINE,
  RECIPE,
  RECIPE_MORE,
  STEP_MORE,
} from "./recipe-forms.js";
/** @import { Choices, Field } from "../../types/recipe" */

/** @typedef {{label: string, choices?: () => Choices}} Told what a field is called, and what its codes say */

/** @param {(readonly Field[])[]} tables @returns {Map<string, Told>} */
const told = (...tables) =>
  new Map(
    tables.flat().map(([key, label, , extra]) => {
      const coded = fieldsOf(extra) && typeof extra === "object" && "codes" in extra ? extra : null;
      return [key, { label, ...(coded && { choices: () => choicesOf(coded) }) }];
    }),
  );

const KINDS_OF_STEP = () => KIND_NAMES.map((kind) => /** @type {const} */ ([kind, kindName(kind)]));

/**
 * The lists of a recipe, each with what the fields of a thing in it are called on the page.
 * @type {{readonly [table: string]: Map<string, Told> | undefined}}
 */
export const LISTS = {
  components: told(COMPONENT, COMPONENT_MORE),
  lines: told(LINE, [
    ["ingredient", "ingredient"],
    ["amount", "amount"],
  ]),
  steps: told(...Object.values(KINDS).flatMap(({ main, more }) => [main, more]), STEP_MORE, [
    ["title", "step-title"],
    ["says", "how"],
    ["after", "after"],
  ]).set("kind", { label: "step-kind", choices: KINDS_OF_STEP }),
  ingredients: told(INGREDIENT, ...Object.values(INGREDIENT_OF_KIND).flatMap((fields) => [fields ?? []])),
  takes: told([["count", "count"]]),
};
const RECIPE_ITSELF = told(RECIPE, RECIPE_MORE);

/**
 * What a field is called; one that the page does not know is called as the file calls it.
 * @param {string} table one of LISTS, or "" @param {string} path @returns {string}
 */
export function fieldWords(table, path) {
  const fields = LISTS[table] ?? RECIPE_ITSELF;
  const field = fields.get(path) ?? fields.get(path.split(".")[0]);
  return field ? labelOf(field.label) : path.replaceAll(/[._]/g, " ");
}

/**
 * What a code says that was chosen in that field; undefined where it is none.
 * @param {string} table @param {string} path @param {string} code
 */
export const choiceWords = (table, path, code) =>
  (LISTS[table] ?? RECIPE_ITSELF)
    .get(path)
    ?.choices?.()
    .find(([each]) => each === code)?.[1];

/** What the end of a whole path is called: "Amount"; "" where it is a thing of a list. @param {string} at */
export function lastWords(at) {
  const keys = at.split(".");
  const place = keys.findLastIndex((key) => Object.hasOwn(LISTS, key));
  const table = keys[place] ?? "";
  const path = keys.slice(place < 0 ? 0 : place + 2);
  if (path.length) return fieldWords(table, path.filter((key) => !/^\d+$/.test(key)).join("."));
  return place === keys.length - 1 ? labelOf(table) : "";
}
