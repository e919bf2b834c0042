// A path into a recipe's document, in the maker's words: "Fizzing base, Citric acid, amount".

import { valueAt } from "./recipe-fields.js";

/** @param {object} document @param {string} at */
export function placeWords(document, at) {
  if (!at) return "The whole";
  const keys = at.split(".");
  const said = keys.map((key, index) => {
    const here = valueAt(document, keys.slice(0, index + 1).join("."));
    if (!here || typeof here !== "object" || Array.isArray(here)) return "";
    const called = document.ingredients?.[here.ingredient]?.name;
    return here.name || here.title || called || (/^\d+$/.test(key) ? `number ${Number(key) + 1}` : "");
  });
  const last = keys.at(-1);
  return (
    [...said, /^\d+$/.test(last) || said.at(-1) ? "" : last.replaceAll("_", " ")]
      .filter(Boolean)
      .join(", ") || at
  );
}
