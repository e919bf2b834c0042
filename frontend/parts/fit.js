// Makes the bench tighter, step by step, until what a maker must see is in sight without a scroll. What each
// step takes away is in style/bench.css; here is only measured whether it is enough.
//
//   fit(bench, words, musts, key);   // bench gets data-tight "1 2 …"; `key` tells one prompt from another
//
// What a prompt needed at this size is remembered, so that a touch that changes nothing is measured once.

import { setAttr } from "./dom.js";

const STEPS = 6;
const KEPT = 200;
const known = new Map();

/** All of it is in sight: no part of the words that must be seen lies below their foot, and nothing is pushed out. */
function fits(bench, words, musts) {
  if (bench.scrollHeight > bench.clientHeight + 1 || bench.scrollWidth > bench.clientWidth + 1) return false;
  const foot = words.clientHeight - 2;
  return musts.every((node) => node.offsetParent === null || node.offsetTop + node.offsetHeight <= foot);
}

const steps = (tight) => Array.from({ length: tight }, (_, step) => step + 1).join(" ") || null;

export function fit(bench, words, musts, key) {
  const place = `${key} ${bench.clientWidth}x${bench.clientHeight}`;
  let tight = known.get(place) ?? 0;
  setAttr(bench, "data-tight", steps(tight));
  while (tight < STEPS && !fits(bench, words, musts)) {
    tight += 1;
    setAttr(bench, "data-tight", steps(tight));
  }
  if (known.size > KEPT) known.clear();
  known.set(place, tight);
}
