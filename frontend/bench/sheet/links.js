/** What comes after what, once every round is laid out. */

import { full, last } from "../lists.js";
import { ASSEMBLY, fullGuard } from "../states.js";
import { traits } from "../steps/index.js";
import { byIdOf } from "./follow.js";
/** @import { Component, RecipeStep, Window } from "../../../bench/shapes/page" */
/** @import { Place } from "../../../types/bench" */
/** @import { Full } from "../../../types/lists" */
/** @import { Laying } from "./parts.js" */

/** @typedef {{component: string, closing: string}} Leader */

/**
 * {component, closing}: the component whose window the assembly must keep, so whose rounds it
 * follows, and the assembly's step that closes that window. Null when it keeps none.
 * @param {Component} assembly @returns {Leader | null}
 */
export function leaderOf(assembly) {
  for (const step of assembly.steps) {
    for (const reference of step.window?.from ?? []) {
      const [source] = reference.split(".");
      if (source !== ASSEMBLY) return { component: source, closing: step.id };
    }
  }
  return null;
}

/**
 * Fills in `after`, `window` and `keeps`, now that every round has its steps.
 * @param {Laying} draft @param {Full<string, {perRound: number[]}>} counts
 */
export function link(draft, counts) {
  const numberOf = (/** @type {string} */ component) => counts.get(component).perRound.length;
  const assembly = draft.components.find((component) => component.id === ASSEMBLY);
  const leader = assembly ? leaderOf(assembly) : null;
  const paired = new Set(leader ? [ASSEMBLY, leader.component] : []);
  /** @type {Full<string, RecipeStep>} */
  const written = full(
    draft.components.flatMap((component) =>
      component.steps.map((step) => /** @type {const} */ ([`${component.id}.${step.id}`, step])),
    ),
  );
  /** @param {string} reference @param {Place} place */
  const instances = (reference, { component, round }) => {
    const [source, step] = reference.split(".");
    if (source === component || (paired.has(source) && paired.has(component)))
      return [`${source}.${round}.${step}`];
    return Array.from({ length: numberOf(source) }, (_, index) => `${source}.${index + 1}.${step}`);
  };
  const byId = byIdOf(draft.steps);
  for (const step of draft.steps) {
    const source = written.get(`${step.component}.${step.step}`);
    step.after = source.after.flatMap((reference) => instances(reference, step));
    const opened = (/** @type {Window} */ window) => ({
      from: window.from.flatMap((reference) => instances(reference, step)),
      latest_ms: window.latest_ms,
      stake: window.stake,
      ...fullGuard(window),
    });
    if (source.window) step.window = opened(source.window);
    // What is at stake by nature follows from the state: `stakeOf` says it.
    step.keeps = (source.keeps ?? []).map((window) => ({ ...opened(window), stake: "" }));
    if (source.until) step.until = source.until.flatMap((reference) => instances(reference, step));
  }
  for (const component of draft.components) {
    for (let number = 2; number <= numberOf(component.id); number += 1) {
      const frees = freeing(component, number - 1, leader);
      const prefix = `${component.id}.${number}.`;
      for (const step of component.steps) {
        const { after } = byId.get(prefix + step.id);
        if (!after.some((need) => need.startsWith(prefix)) && !after.includes(frees)) after.push(frees);
      }
    }
  }
}

/**
 * The step of a round that gives back what the next round needs: mould, bowl or hands.
 * @param {Component} component @param {number} number @param {Leader | null} leader
 */
function freeing(component, number, leader) {
  if (leader && component.id === leader.component) return `${ASSEMBLY}.${number}.${leader.closing}`;
  // A held mould comes free when it is emptied; a bowl at the first piece-by-piece step: the
  // pressing, pouring or piping.
  const isHeld = component.mould?.held;
  const steps = component.steps.filter(({ until }) => !until);
  const frees = steps.find((step) => (isHeld ? step.unmoulds : traits(step).countsPieces));
  return `${component.id}.${number}.${(frees ?? last(steps)).id}`;
}
