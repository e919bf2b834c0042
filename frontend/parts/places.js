// A path into a recipe's document, in the maker's words: "Fizzing base, Citric acid, Amount".

import { say } from "../words.js";
import { fieldsOf, valueAt } from "./recipe-fields.js";
import { lastWords } from "./recipe-labels.js";
/** @import { WrittenRecipe } from "../../bench/shapes/page" */

/** @param {WrittenRecipe} document @param {string} at */
export function placeWords(document, at) {
  if (!at) return say("page-recipe-itself");
  const keys = at.split(".");
  const said = keys.map((key, index) => {
    const here = fieldsOf(valueAt(document, keys.slice(0, index + 1).join(".")));
    if (!here || Array.isArray(here)) return "";
    const called = document.ingredients?.[String(here.ingredient)]?.name;
    return (
      here.name ||
      here.title ||
      called ||
      (/^\d+$/.test(key) ? unnamed(keys[index - 1], Number(key) + 1) : "")
    );
  });
  return [...said, lastWords(at)].filter(Boolean).join(", ");
}

/** @param {string} list @param {number} count */
const unnamed = (list, count) =>
  list === "lines" ? say("page-recipe-line", { count }) : say("page-recipe-number", { count });
