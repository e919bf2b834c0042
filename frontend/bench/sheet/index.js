/**
 * The sheet: a recipe at one size for one kit. Every weight on a scale, every wait and burst.
 *
 * A pure function of (measured recipe, size, kit): the same inputs give the same bytes here and on
 * the server, so a run can start with no network. A sheet is never edited.
 *
 * Ids say where a thing belongs: "base.1.dry" is the step `dry` of round 1 of the component `base`.
 */

export { openSheet } from "./former.js";
export { makeSheet } from "./making.js";
export { chooseSize } from "./sizes.js";
