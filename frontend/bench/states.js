/**
 * States that do not keep, as far as the bench says them: which window of a step is open, and what to do when it
 * was missed. The same as bench/states.py, which says where the words come from.
 */

/** @import { Window } from "../../bench/shapes/page" */
/** @import { Over } from "../../types/bench" */

/** @typedef {Pick<Window, "state" | "class" | "price_ms" | "lost_ms" | "rescue">} Guarded */

/** The part in which pieces of the others are joined. */
export const ASSEMBLY = "assembly";

/** What helps a mix that was sprayed too wet, where its recipe does not say: common practice. */
export const TOO_WET = "Stop spraying. Spread it thin, turn it now and then.";

/** @type {{[state: string]: string}} */
const STAKES = {
  melted_base: "It sets in about 5 min: a skin first, then a plug.",
  warm_fat: "It clouds and sets in about 15 min.",
  wetted_fizz: "It dries and crumbles in about 30 min, sooner in dry air.",
  whipped_base: "It sinks and dries in about 30 min.",
  beaten_topping: "It stiffens in about 20 min and can no longer be piped.",
  piped_top: "A skin forms in about 10 min.",
  first_layer: "It goes cold in about 25 min, and the layers part.",
  unwrapped: "It takes up water: in days at 40 % humidity, in hours at 70 %.",
};

/** @type {{[state: string]: string}} */
const RESCUES = {
  melted_base: "Heat it briefly, then stir. Water goes each time: twice at the most.",
  warm_fat: "Back over the water bath until it is clear.",
  wetted_fizz: "A light spray over the whole face, worked in.",
  whipped_base: "Beat it again before what comes next.",
  beaten_topping: "Spread it with a knife where it no longer pipes.",
  piped_top: "Mist the skin with alcohol, then set it in.",
  first_layer: "Score it, warm it and mist it with alcohol. The bond is weaker.",
  unwrapped: "Dab off the dew, let it dry in moving air, then wrap.",
};

/**
 * What to do when a window or a wait was missed: the recipe's own words, else common practice; "" where nothing helps.
 * @param {Over} over
 */
export const rescue = (over) => over.rescue || (RESCUES[over.state ?? ""] ?? "");

/**
 * What is at stake where a window is missed: the recipe's own words, else common practice for its state.
 * @param {{stake?: string, state?: string}} over
 */
export const stakeOf = (over) => over.stake || (STAKES[over.state ?? ""] ?? "");

/**
 * The window of a sheet's step that is open, {opened_at, latest_at, over}, or null. endOf: step -> when it ended.
 * Its own stands before those by nature; of these, the first to close that does not keep.
 * @param {{window: Window | null, keeps?: readonly Window[]}} step
 * @param {(step: string) => number | null | undefined} endOf
 */
export function openWindow(step, endOf) {
  const own = step.window ? [step.window] : [];
  const natural = (step.keeps ?? []).filter((each) => each.class !== "quality");
  for (const overs of [own, natural]) {
    const found = overs.flatMap((over) => {
      const ends = over.from.flatMap((step) => endOf(step) ?? []);
      const opened = Math.max(...ends);
      return ends.length && ends.length === over.from.length
        ? [{ opened_at: opened, latest_at: opened + over.latest_ms, over }]
        : [];
    });
    if (found.length) return found.reduce((first, each) => (each.latest_at < first.latest_at ? each : first));
  }
  return null;
}

/**
 * What a window is over, and what it costs to miss it; a recipe measured long ago does not say.
 * @param {Guarded} window
 */
export function fullGuard(window) {
  const own = "rescue" in window ? { rescue: window.rescue } : {};
  return {
    state: window.state ?? "",
    class: window.class ?? "quality",
    price_ms: window.price_ms ?? 0,
    lost_ms: window.lost_ms ?? null,
    ...own,
  };
}
