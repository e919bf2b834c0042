/** Lists and maps that are asked only for what is in them. */

/** @import { Full } from "../../types/lists" */

/** The last of a list that has one. @template T @param {readonly T[]} list */
export const last = (list) => list[list.length - 1];

/**
 * A map that is asked only for keys it has, as of steps by id.
 * @template K, V @param {Iterable<readonly [K, V]>} [pairs]
 */
export const full = (pairs = []) => /** @type {Full<K, V>} */ (new Map(pairs));

/**
 * The list that a map has under a key, put there where it had none.
 * @template K, T @param {Map<K, T[]>} map @param {K} key
 */
export function listOf(map, key) {
  const list = map.get(key) ?? [];
  map.set(key, list);
  return list;
}

/**
 * Those of a list that there are.
 * @template T @param {readonly (T | null | undefined | false | "")[]} list @returns {T[]}
 */
export const those = (list) => list.flatMap((each) => (each ? [each] : []));
