// Will it ring? One state of five things, each well (true), not (false), or not to be known by a page (null). Pure.
//
//   ringState({ sound, canRing, holdsScreen, mayGoDark, isClockSure })  ->  [{ name, well, says }]
//   willRing(facts)  ->  "It will ring." or the first thing that keeps it from ringing

import { say } from "../words.js";

/**
 * @typedef {{sound: boolean, canRing: boolean, holdsScreen: boolean, mayGoDark: boolean, isClockSure: boolean}}
 * RingFacts
 * @typedef {{name: string, well: boolean | null, says: string}} RingPart
 */

/** @param {RingFacts} facts @returns {RingPart[]} */
export function ringState({ sound, canRing, holdsScreen, mayGoDark, isClockSure }) {
  const isDark = mayGoDark || !holdsScreen;
  return [
    {
      name: say("page-ring-sound"),
      well: sound,
      says: say(sound ? "page-ring-sound-on" : "page-ring-sound-off"),
    },
    {
      name: say("page-ring-browser"),
      well: canRing,
      says: say(canRing ? "page-ring-browser-can" : "page-ring-browser-not-yet"),
    },
    { name: say("page-ring-switch"), well: null, says: say("page-ring-switch-unknown") },
    {
      name: say("page-ring-screen"),
      well: !isDark,
      says: say(isDark ? "page-ring-screen-dark" : "page-ring-screen-on"),
    },
    {
      name: say("page-ring-clock"),
      well: isClockSure || null,
      says: say(isClockSure ? "page-ring-clock-sure" : "page-ring-clock-unsure"),
    },
  ];
}

/** @param {RingFacts} facts */
export function willRing(facts) {
  const not = ringState(facts).find(({ well }) => well === false);
  return not ? [say("page-ring-may-not"), `${not.name}: ${not.says}`].join(" ") : say("page-ring-will");
}
