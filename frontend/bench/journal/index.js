/**
 * The journal: what happened at the bench, and the fold that says where things stand.
 *
 * A run is a grow-only set of entries. Merge is set union; the fold sorts by (at, device, id), so
 * order of arrival does not matter, a duplicate is harmless and two phones converge. An undo is an
 * entry that takes back an earlier one. Nothing that is well-formed is refused because another entry
 * came first: a step reported done before its needs were done is done. An entry this version does not
 * understand, or one that speaks of another sheet, is kept and listed as unread. What a signing
 * seals, and what then becomes of every other entry, is told in the Python package of the same name.
 *
 * The fold never throws and never reads a clock. It is the same fold as the server's.
 */

export { carryUp, divisionOn, inReach, leftOfMix, portionTargets } from "./amounts.js";
export { fold, Folding } from "./folding.js";
export { frozenSeal, ofRecord, seal, toldOf } from "./signing.js";
