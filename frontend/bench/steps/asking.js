/** What the core asks a step of its kind: each trait as a question, and what only some kinds have. */

import * as check from "./check.js";
import * as doing from "./do.js";
import * as melt from "./melt.js";
import * as pieces from "./pieces.js";
import * as split from "./split.js";
import * as wait from "./wait.js";
import * as weigh from "./weigh.js";
/** @import { Component, DoStep, RecipeStep, Step, StepKind } from "../../../bench/shapes/page" */
/** @import { Draft } from "../../../types/bench" */
/** @import { Traits } from "./kind.js" */

/** @typedef {{readonly kind: string}} Kinded */

/** @type {{[kind: string]: Traits}} */
const TRAITS = {
  weigh: weigh.TRAITS,
  do: doing.TRAITS,
  melt: melt.TRAITS,
  split: split.TRAITS,
  check: check.TRAITS,
  pieces: pieces.TRAITS,
  wait: wait.TRAITS,
};
/** Of a later version: there is no more to it than that hands do it. @type {Traits} */
const UNKNOWN = {};

/** @param {Kinded} step */
export const traits = ({ kind }) => TRAITS[kind] ?? UNKNOWN;

/** @template {Kinded} S @param {S} step @returns {step is Extract<S, {kind: "wait"}>} */
export const runsByItself = (step) => Boolean(traits(step).runsByItself);

/** @template {Kinded} S @param {S} step @returns {step is Extract<S, {kind: "pieces"}>} */
export const countsPieces = (step) => Boolean(traits(step).countsPieces);

/** @template {Kinded} S @param {S} step @returns {step is Extract<S, {kind: "weigh"}>} */
export const putsIn = (step) => Boolean(traits(step).putsIn);

/** @template {Kinded} S @param {S} step @returns {step is Extract<S, {kind: "do"}>} */
export const byHand = (step) => Boolean(traits(step).byHand);

/** @template {Kinded} S @param {S} step @returns {step is Extract<S, {kind: "melt"}>} */
export const heats = (step) => Boolean(traits(step).heats);

/** @template {Kinded} S @param {S} step @returns {step is Extract<S, {kind: "split"}>} */
export const divides = (step) => Boolean(traits(step).divides);

/** @template {Kinded} S @param {S} step @returns {step is Extract<S, {kind: "check"}>} */
export const isJudged = (step) => Boolean(traits(step).isJudged);

/** Whether nothing must be known or chosen before a step is told as done. @param {Step} step */
export const isOneTouch = (step) =>
  byHand(step) &&
  step.mg === null &&
  step.about_ms === null &&
  !step.tips.length &&
  !step.ways.length &&
  !step.hazards.length &&
  !step.cautions.length;

/** @type {Pick<DoStep, "kind" | "about_ms" | "mg" | "tips" | "into">} */
const BARE = { kind: "do", about_ms: null, mg: null, tips: [], into: "" };

/**
 * A step as a thing to do and no more: what a kind of a later version is taken for.
 * @param {Step} step @returns {DoStep}
 */
export const asPlain = (step) => (byHand(step) ? step : { ...step, ...BARE });

/** Whether a written step is of a kind that sheets have. @param {Kinded} step */
export const isPlain = ({ kind }) => Object.hasOwn(TRAITS, kind);

/** The kind that a step is asked about as. @param {Step} step @returns {StepKind} */
export const knownKind = (step) => (isPlain(step) ? step.kind : "do");

/** How long hands are on a step of its kind, by common practice, in ms. @param {Step} step */
export function usualHandsMs(step) {
  if (putsIn(step)) return weigh.usualHandsMs(step);
  if (heats(step)) return melt.USUAL_HANDS_MS;
  if (divides(step)) return split.USUAL_HANDS_MS;
  if (isJudged(step)) return check.USUAL_HANDS_MS;
  return countsPieces(step) ? pieces.usualHandsMs(step) : doing.USUAL_HANDS_MS;
}

/** How long a step takes by its own plan, in ms; null where it has none. @param {Step} step */
export const plannedMs = (step) => (heats(step) && step.bursts.length ? melt.plannedMs(step) : null);

/** Whether nothing is left to do: the maker left out all that it puts in, or looks at. @param {Draft<Step>} step */
export const isEmpty = (step) =>
  (putsIn(step) ? step.lines : isJudged(step) ? step.looks_at : null)?.length === 0;

/**
 * The vessels by label that a step works with, in the order in which it comes to them.
 * @param {RecipeStep} step @returns {readonly string[]}
 */
export function vesselsNamed(step) {
  if (putsIn(step)) return [step.into];
  if (byHand(step) && step.tips.length) return [...step.tips, step.into];
  return divides(step) ? [step.from, ...step.portions.map(({ id }) => id)] : [];
}

/** How long a step is usually left to itself, in ms. @param {RecipeStep | Step} step */
export const usualWaitMs = (step) => (runsByItself(step) ? step.usual_ms : 0);

/**
 * The vessels, by label, that a step heats.
 * @param {RecipeStep} step @param {Component} component
 */
export const heatedIn = (step, component) => (heats(step) ? melt.heatedIn(step, component) : []);
