// Makes the bench tighter, step by step, until what a maker must see is in sight without a scroll. What each
// step takes away is in style/bench.css; here is only measured whether it is enough.
//
//   for (const _ of fitting(bench, words, musts, prompt)); // bench gets data-tight "1 2 …"; after each measure there
//                                       // may be a pause. `prompt` tells one prompt from another
//   forget();                           // the glass or the text has another size
//
// What is not a must (the way to the day, how it went last time) may lie below the foot of the words: they get
// data-below, and fade out there, beneath the last must (--fade-from), so that no line stands cut through.
//
// What a prompt needed is remembered with how long its words were, so that a touch that changes a digit measures
// nothing: a measure makes the browser lay the page out at once.

import { setAttr } from "./dom.js";

const STEPS = 6;
const KEPT = 200;
const FADE = 28; // px above the foot, where there is room
/** @type {Map<string, {tight: number, fade: number | null}>} */
const known = new Map();
let fitted = ""; // the prompt that was fitted last

export function forget() {
  known.clear();
  fitted = "";
}

/** @param {HTMLElement} bench @param {HTMLElement} words @param {HTMLElement[]} musts @param {string} prompt */
export function* fitting(bench, words, musts, prompt) {
  const place = [
    prompt,
    bench.children.length,
    ...[...bench.children].map((part) => (part.hasAttribute("hidden") ? "" : part.textContent.length)),
  ].join(" ");
  const had = known.get(place);
  if (had) {
    fitted = prompt;
    setAttr(bench, "data-tight", steps(had.tight));
    setFade(words, had.fade);
    return;
  }
  // What a prompt says more of, once it stands, loosens nothing: it is looked at as it is.
  let tight = prompt === fitted ? (bench.dataset.tight ?? "").split(" ").filter(Boolean).length : 0;
  fitted = prompt;
  setAttr(bench, "data-tight", steps(tight));
  while (tight < STEPS && !fits(bench, words, musts)) {
    tight += 1;
    setAttr(bench, "data-tight", steps(tight));
    yield;
  }
  if (known.size > KEPT) forget();
  const isBelow = words.scrollHeight > words.clientHeight + 2;
  const fade = isBelow ? Math.max(words.clientHeight - FADE, ...musts.map(footOf)) : null;
  setFade(words, fade);
  known.set(place, { tight, fade });
}

/**
 * Where the words begin to fade, in px from their top; null where nothing lies below.
 * @param {HTMLElement} words @param {number | null} from
 */
function setFade(words, from) {
  setAttr(words, "data-below", from !== null);
  if (from !== null) words.style.setProperty("--fade-from", `${from}px`);
}

/** How far down a part of the words reaches, 0 where it is not drawn. @param {HTMLElement} node */
const footOf = (node) => (node.offsetParent === null ? 0 : node.offsetTop + node.offsetHeight);

/**
 * All of it is in sight: no part of the words that must be seen lies below their foot, and nothing is pushed out.
 * @param {HTMLElement} bench @param {HTMLElement} words @param {HTMLElement[]} musts
 */
function fits(bench, words, musts) {
  if (bench.scrollHeight > bench.clientHeight + 1 || bench.scrollWidth > bench.clientWidth + 1) return false;
  const foot = words.clientHeight - 2;
  return musts.every((node) => footOf(node) <= foot);
}

/** @param {number} tight */
const steps = (tight) => Array.from({ length: tight }, (_, step) => step + 1).join(" ") || null;
