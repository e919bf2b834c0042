/** What the maker chose: lines left out, and stand-ins in their places. */

import { say } from "../../words.js";
import { BenchError } from "../errors.js";
/** @import { Component, RecipeLine } from "../../../bench/shapes/page" */
/** @import { Laying } from "./parts.js" */

/** @typedef {RecipeLine & {instead_of?: string}} ChosenLine */

/** @param {Laying} draft */
export function checkChoices(draft) {
  /** @type {Map<string, RecipeLine>} */
  const lines = new Map(
    draft.components.flatMap((component) =>
      component.lines.map((line) => /** @type {const} */ ([`${component.id}.${line.id}`, line])),
    ),
  );
  for (const key of draft.size.without) {
    if (!lines.get(key)?.optional) {
      throw new BenchError("without", say("swaps-not-optional", { line: key }));
    }
  }
  for (const [key, ingredient] of Object.entries(draft.size.swaps)) {
    const standIns = (lines.get(key)?.substitutes ?? []).map((each) => each.ingredient);
    if (!standIns.includes(ingredient)) {
      const why = standIns.length
        ? say("swaps-other", { ingredient, line: key, could: standIns.join(", ") })
        : say("swaps-none", { ingredient, line: key });
      throw new BenchError(`swaps.${key}`, why);
    }
  }
}

/**
 * The component's lines less those left out, stand-ins in their places.
 * @param {Laying} draft @param {Component} component @returns {ChosenLine[]}
 */
export function chosenLines(draft, component) {
  const { without, swaps } = draft.size;
  return component.lines
    .filter((line) => !without.includes(`${component.id}.${line.id}`))
    .map((line) => {
      const key = `${component.id}.${line.id}`;
      if (!Object.hasOwn(swaps, key)) return line;
      const standIn = line.substitutes.find((each) => each.ingredient === swaps[key]);
      if (!standIn) return line; // checkChoices refused it
      const { ingredient, ug, nl, count, unit, about_ug, texture, says } = standIn;
      const meant = draft.recipe.ingredients[line.ingredient].name;
      const note = [line.note, says].filter(Boolean).join(" ");
      return { ...line, ingredient, ug, nl, count, unit, about_ug, texture, note, instead_of: meant };
    });
}
