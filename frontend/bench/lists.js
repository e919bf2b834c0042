/** Lists and maps that are asked only for what is in them. */

/** @import { Full } from "../../types/lists" */

/** The last of a list that has one. @template T @param {readonly T[]} list */
export const last = (list) => list[list.length - 1];

/**
 * A map that is asked only for keys it has, as of steps by id.
 * @template K, V @param {Iterable<readonly [K, V]>} [pairs]
 */
export const full = (pairs = []) => /** @type {Full<K, V>} */ (new Map(pairs));
