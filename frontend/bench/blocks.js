/**
 * Where hands stay: runs of steps from what opens a state that does not keep to what ends it.
 * The same as bench/planning/blocks.py, which says how it goes.
 */

const STAY_MS = 120 * 60_000; // of a longer gap nobody stands by
const AT_ONCE_MS = 5 * 60_000; // so short a window leaves no time for anything else, whatever is at stake

/** Whether hands stay on a part from the opening of this gap to its end. What has no class has no state. */
export function holdsHands({ class: kind, most_ms: most }) {
  if (kind === undefined || kind === null || most === null) return false;
  return most <= AT_ONCE_MS || ((kind === "ruin" || kind === "back") && most <= STAY_MS);
}

/** Runs of two or more open hands-on steps, each in the order to do them; no step is in two. */
export function blocksOf(day) {
  const after = day.tasks.map(() => []);
  const before = day.tasks.map(() => []);
  for (const [index, needs] of day.needs.entries()) {
    for (const [need] of needs) {
      if (day.end[need] !== null) continue;
      before[index].push(need);
      if (day.end[index] === null) after[need].push(index);
    }
  }
  const between = (source, to) => {
    if (day.end[source] !== null) return [];
    const up = reach([to], before);
    return [source, ...[...reach([source], after)].filter((each) => up.has(each))];
  };
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

const meets = (one, other) => [...one].some((each) => other.has(each));

function reach(starts, edges) {
  const seen = new Set();
  const stack = [...starts];
  while (stack.length) {
    for (const each of edges[stack.pop()]) {
      if (seen.has(each)) continue;
      seen.add(each);
      stack.push(each);
    }
  }
  return seen;
}

/** The run with all that lies between its own steps; null where hands cannot do that in one piece. */
function closed(day, run, after, before) {
  const up = reach(run, before);
  const whole = new Set([...run, ...[...reach(run, after)].filter((each) => up.has(each))]);
  const all = [...whole];
  if (all.some((each) => !day.hands[each] || day.tasks[each].status === "begun")) return null;
  if (all.some((each) => day.needs[each].some(([need, least]) => least > 0 && whole.has(need)))) return null;
  return all.reduce((total, each) => total + day.takes[each], 0) > day.longest ? null : whole;
}

/** Whether the blocks, each in one piece, can follow each other: none waits for another in a circle. */
function canFollow(blocks, after) {
  const place = new Map(blocks.flatMap((block, number) => [...block].map((index) => [index, number])));
  const edges = blocks.map(
    (block, number) =>
      new Set(
        [...reach(block, after)]
          .map((each) => place.get(each))
          .filter((each) => each !== undefined && each !== number),
      ),
  );
  const seen = new Map(); // 1 while on the way, 2 when settled
  const turns = (number) => {
    if (seen.has(number)) return seen.get(number) === 1;
    seen.set(number, 1);
    if ([...edges[number]].some(turns)) return true;
    seen.set(number, 2);
    return false;
  };
  return !blocks.some((_, number) => turns(number));
}

/** In the order of their needs, and as written where those say nothing. */
function inOrder(day, block) {
  const left = [...block].sort((a, b) => a - b);
  const placed = [];
  while (left.length) {
    const index = left.find((each) => !day.needs[each].some(([need]) => left.includes(need)));
    placed.push(index);
    left.splice(left.indexOf(index), 1);
  }
  return placed;
}
