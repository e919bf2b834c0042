/**
 * Where hands stay: runs of steps from what opens a state that does not keep to what ends it.
 * The same as bench/planning/blocks.py, which says how it goes.
 */

/** @import { Gap } from "../../bench/shapes/page" */
/** @import { Day } from "./layout.js" */

const STAY_MS = 120 * 60_000; // of a longer gap nobody stands by
export const AT_ONCE_MS = 5 * 60_000; // so short a window leaves no time for anything else, whatever is at stake

/**
 * Whether hands stay on a part from the opening of this gap to its end. What has no class has no state.
 * @param {Gap} gap
 */
export function holdsHands({ class: kind, most_ms: most }) {
  if (kind === undefined || kind === null || most === null) return false;
  return most <= AT_ONCE_MS || ((kind === "ruin" || kind === "back") && most <= STAY_MS);
}

/** Runs of two or more open hands-on steps, each in the order to do them; no step is in two. @param {Day} day */
export function blocksOf(day) {
  /** @type {number[][]} */
  const after = day.tasks.map(() => []);
  /** @type {number[][]} */
  const before = day.tasks.map(() => []);
  for (const [index, needs] of day.needs.entries()) {
    for (const [need] of needs) {
      if (day.end[need] !== null) continue;
      before[index].push(need);
      if (day.end[index] === null) after[need].push(index);
    }
  }
  /** @param {number} source @param {number} to */
  const between = (source, to) => {
    if (day.end[source] !== null) return [];
    const up = reach([to], before);
    return [source, ...[...reach([source], after)].filter((each) => up.has(each))];
  };
  /** @type {Set<number>[]} */
  let blocks = [];
  for (const { sources, to, gap } of day.mosts) {
    if (!holdsHands(gap) || day.end[to] !== null || !day.hands[to]) continue;
    if (sources.some((each) => day.end[each] === null && !day.hands[each])) continue;
    const run = new Set([to, ...sources.flatMap((each) => between(each, to))]);
    for (const block of blocks.filter((each) => meets(each, run))) for (const each of block) run.add(each);
    const joined = closed(day, run, after, before);
    if (joined === null) continue;
    const touched = blocks.filter((block) => meets(block, joined));
    if (touched.some((block) => [...block].some((each) => !joined.has(each)))) continue;
    const kept = blocks.filter((block) => !touched.includes(block));
    if (joined.size > 1 && canFollow([...kept, joined], after)) blocks = [...kept, joined];
  }
  return blocks.map((block) => inOrder(day, block));
}

/** @param {Iterable<number>} one @param {Set<number>} other */
const meets = (one, other) => [...one].some((each) => other.has(each));

/** @param {Iterable<number>} starts @param {number[][]} edges @returns {Set<number>} */
function reach(starts, edges) {
  /** @type {Set<number>} */
  const seen = new Set();
  const stack = [...starts];
  for (let next = stack.pop(); next !== undefined; next = stack.pop()) {
    for (const each of edges[next]) {
      if (seen.has(each)) continue;
      seen.add(each);
      stack.push(each);
    }
  }
  return seen;
}

/**
 * The run with all that lies between its own steps; null where hands cannot do that in one piece.
 * @param {Day} day @param {Set<number>} run @param {number[][]} after @param {number[][]} before
 */
function closed(day, run, after, before) {
  const up = reach(run, before);
  const whole = new Set([...run, ...[...reach(run, after)].filter((each) => up.has(each))]);
  const all = [...whole];
  if (all.some((each) => !day.hands[each] || day.tasks[each].status === "begun")) return null;
  if (all.some((each) => day.needs[each].some(([need, least]) => least > 0 && whole.has(need)))) return null;
  return all.reduce((total, each) => total + day.takes[each], 0) > day.longest ? null : whole;
}

/**
 * Whether the blocks, each in one piece, can follow each other: none waits for another in a circle.
 * @param {Set<number>[]} blocks @param {number[][]} after
 */
function canFollow(blocks, after) {
  /** @type {Map<number, number>} */
  const place = new Map();
  for (const [number, block] of blocks.entries()) for (const index of block) place.set(index, number);
  const edges = blocks.map(
    (block, number) =>
      new Set(
        [...reach(block, after)].flatMap((each) => place.get(each) ?? []).filter((each) => each !== number),
      ),
  );
  /** @type {Map<number, number>} */
  const seen = new Map(); // 1 while on the way, 2 when settled
  /** @param {number} number @returns {boolean} */
  const turns = (number) => {
    if (seen.has(number)) return seen.get(number) === 1;
    seen.set(number, 1);
    if ([...edges[number]].some(turns)) return true;
    seen.set(number, 2);
    return false;
  };
  return !blocks.some((_, number) => turns(number));
}

/** In the order of their needs, and as written where those say nothing. @param {Day} day @param {Set<number>} block */
function inOrder(day, block) {
  const left = [...block].sort((a, b) => a - b);
  /** @type {number[]} */
  const placed = [];
  while (left.length) {
    const place = left.findIndex((each) => !day.needs[each].some(([need]) => left.includes(need)));
    placed.push(...left.splice(place, 1));
  }
  return placed;
}
