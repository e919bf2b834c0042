/**
 * States that do not keep, as far as the bench says them: which window of a step is open, and what to do when it
 * was missed. The same as bench/states.py, which says where the words come from.
 */

import { say } from "../words.js";
/** @import { Window } from "../../bench/shapes/page" */
/** @import { Over } from "../../types/bench" */

/** @typedef {Pick<Window, "state" | "class" | "price_ms" | "lost_ms" | "rescue">} Guarded */

/** The part in which pieces of the others are joined. */
export const ASSEMBLY = "assembly";

/** As bench/states.py has them: the server writes them in. @type {readonly string[]} */
const STATES = [];

/**
 * From so many % humidity on a state keeps for so long: as bench/states.py has it, written in by the server.
 * @type {{[state: string]: readonly (readonly [humidity: number, ms: number])[] | undefined}}
 */
const DAMP = {};

/**
 * For how long what a window of nature's is over keeps, in air of this humidity in %; null where nobody read it.
 * @param {Pick<Window, "state" | "latest_ms">} over @param {number | null} humidity
 */
export const keepsMs = ({ state = "", latest_ms }, humidity) =>
  Math.min(
    latest_ms,
    ...(DAMP[state] ?? []).flatMap(([least, ms]) => (humidity !== null && humidity >= least ? [ms] : [])),
  );

/**
 * What to do when a window or a wait was missed: the recipe's own words, else common practice; "" where nothing helps.
 * @param {Over} over
 */
export const rescue = ({ rescue: own, state = "" }) =>
  own || (STATES.includes(state) ? say(`states-rescue-${state}`) : "");

/**
 * What is at stake where a window is missed: the recipe's own words, else common practice for its state.
 * @param {{stake?: string, state?: string}} over
 */
export const stakeOf = ({ stake, state = "" }) =>
  stake || (STATES.includes(state) ? say(`states-stake-${state}`) : "");

/**
 * The window of a sheet's step that is open, {opened_at, latest_at, over}, or null. endOf: step -> when it ended.
 * Its own stands before those by nature; of these, the first to close that does not keep, or keeps less in the air
 * that was read.
 * @param {{window: Window | null, keeps?: readonly Window[]}} step
 * @param {(step: string) => number | null | undefined} endOf
 * @param {readonly {humidity: number}[]} air
 */
export function openWindow(step, endOf, air) {
  const own = step.window ? [step.window] : [];
  const natural = (step.keeps ?? []).flatMap((each) => {
    const latest_ms = keepsMs(each, air.at(-1)?.humidity ?? null);
    return each.class !== "quality" || latest_ms < each.latest_ms ? [{ ...each, latest_ms }] : [];
  });
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
