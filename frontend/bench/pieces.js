/**
 * Finished pieces: where those of each batch are, by what the shelf's journal tells of them.
 *
 *   const told = toldOfPieces(entries);             // {run: Moved}
 *   stand({ good: 60, kept: 1 }, told[run])         // {made, in_stock, left, kept, binned}
 *
 * The same counting as bench/pieces.py, less who has them: that the server says.
 */

import { fields, inOrder, lessUndone, understood } from "./entries.js";
import { SHELF_KINDS } from "./kinds.js";
/** @import { Entry, PiecesEntry, PiecesMade, PiecesStand } from "../../bench/shapes/page" */

/** @typedef {{left: number, kept: number, binned: number, place: string | null}} Moved */

const KINDS = new Map(
  Object.entries(SHELF_KINDS)
    .filter(([, { traits }]) => traits.includes("of_pieces"))
    .map(([kind, row]) => [kind, fields(row.fields)]),
);
/** @type {Moved} */
const STAYS = { left: 0, kept: 0, binned: 0, place: null };

/** @param {readonly Entry[]} entries the shelf's @returns {{[run: string]: Moved}} */
export function toldOfPieces(entries) {
  /** @type {{[run: string]: Moved}} */
  const told = {};
  for (const each of lessUndone(inOrder(entries))) {
    if (!understood(each, KINDS)) continue;
    const { kind, body } = /** @type {PiecesEntry} */ (/** @type {unknown} */ (each));
    const moved = (told[body.run] ??= { ...STAYS });
    if (kind === "stood") moved.place = body.place;
    else if (kind === "binned") moved.binned += body.pieces;
    else if (kind === "sampled") moved.kept += body.pieces;
    else if (kind === "returned") moved.left -= body.pieces;
    else if (kind !== "complained") moved.left += body.pieces;
  }
  return told;
}

/**
 * Where the pieces of a batch are now. made: what its record says, the kept ones among the good.
 * @param {PiecesMade} made @param {Moved} [moved] @returns {PiecesStand}
 */
export function stand({ good, kept }, { left, kept: more, binned } = STAYS) {
  return { made: good, in_stock: good - left - kept - more - binned, left, kept: kept + more, binned };
}
