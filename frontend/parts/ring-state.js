// Will it ring? One state of five things, each well (true), not (false), or not to be known by a page (null). Pure.
//
//   ringState({ sound, canRing, holdsScreen, mayGoDark, isClockSure })  ->  [{ name, well, says }]
//   willRing(state)  ->  "It will ring." or the first thing that keeps it from ringing

/**
 * @typedef {{sound: boolean, canRing: boolean, holdsScreen: boolean, mayGoDark: boolean, isClockSure: boolean}}
 * RingFacts
 * @typedef {{name: string, well: boolean | null, says: string}} RingPart
 */

/** @param {RingFacts} facts @returns {RingPart[]} */
export function ringState({ sound, canRing, holdsScreen, mayGoDark, isClockSure }) {
  /** @type {[boolean, string]} */
  const screen =
    mayGoDark || !holdsScreen
      ? [false, "may go dark. Set the phone's own lock to never."]
      : [true, "stays on while something counts"];
  return [
    { name: "Sound", well: sound, says: sound ? "on" : "off. Tick it above." },
    {
      name: "Browser",
      well: canRing,
      says: canRing ? "lets this page sound" : "gives no sound yet. Touch the page.",
    },
    { name: "Silent switch", well: null, says: "a page can't see it, nor the volume. Test the ring." },
    { name: "Screen", well: screen[0], says: screen[1] },
    {
      name: "Clock",
      well: isClockSure || null,
      says: isClockSure
        ? "checked with the server"
        : "not checked: no connection yet. Timers run all the same.",
    },
  ];
}

/** @param {RingPart[]} state */
export function willRing(state) {
  const not = state.find(({ well }) => well === false);
  return not ? `It may not ring. ${not.name}: ${not.says}` : "It will ring.";
}
