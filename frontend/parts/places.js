// A path into a recipe's document, in the maker's words: "Fizzing base, Citric acid, amount".

import { fieldsOf, valueAt } from "./recipe-fields.js";
/** @import { WrittenRecipe } from "../../bench/shapes/page" */

/** @param {WrittenRecipe} document @param {string} at */
export function placeWords(document, at) {
  if (!at) return "The whole";
  const keys = at.split(".");
  const said = keys.map((key, index) => {
    const here = fieldsOf(valueAt(document, keys.slice(0, index + 1).join(".")));
    if (!here || Array.isArray(here)) return "";
    const called = document.ingredients?.[String(here.ingredient)]?.name;
    return here.name || here.title || called || (/^\d+$/.test(key) ? `number ${Number(key) + 1}` : "");
  });
  const last = keys[keys.length - 1];
  return (
    [...said, /^\d+$/.test(last) || said.at(-1) ? "" : last.replaceAll("_", " ")]
      .filter(Boolean)
      .join(", ") || at
  );
}
