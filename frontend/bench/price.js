/**
 * What it costs when gaps are not kept. Ruin is not lateness: minutes over unlike things are never added up.
 * The same as bench/planning/price.py, which says how it goes.
 */

/** @import { Gap } from "../../bench/shapes/page" */

/** @type {readonly number[]} */
export const NOTHING = [0, 0, 0, 0];
export const WHOLE = 1000; // a gap overrun by its own size
const LEAST_MOST_MS = 60_000; // a gap of less is as easily overrun as one of this

/** Whether a gap overrun by so much is past all ways back. @param {Gap} gap @param {number} over */
export const isRuin = (gap, over) => gap.class === "ruin" || over > (gap.lost_ms ?? Infinity);

/** The price of [{over, gap}]: [ruined, back, missed, share]. @param {readonly {over: number, gap: Gap}[]} broken */
export function priceOf(broken) {
  let [ruined, back, missed, share] = NOTHING;
  for (const { over, gap } of broken) {
    share += Math.floor((over * WHOLE) / Math.max(gap.most_ms ?? 0, LEAST_MOST_MS));
    if (isRuin(gap, over)) ruined += 1;
    else if (gap.class === "back") back += gap.price_ms ?? 0;
    else missed += 1;
  }
  return [ruined, back, missed, share];
}

/**
 * Less than nought, nought or more, as the first that differs says.
 * @param {readonly number[]} one @param {readonly number[]} other
 */
export function compare(one, other) {
  const place = one.findIndex((each, index) => each !== other[index]);
  return place < 0 ? 0 : one[place] - other[place];
}
