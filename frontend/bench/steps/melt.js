/** melt: lines are melted in short bursts, with a look after each. */

import { burstPlan, heatUj, inBursts } from "../heating.js";
import { sum } from "../whole.js";
import { chosen, MINUTE_MS } from "./kind.js";
/** @import { Burst, Component, Heater, MeltStep, RecipeMelt, StepHead } from "../../../bench/shapes/page" */
/** @import { Batch, Traits } from "./kind.js" */

/** Common practice, both: a melt with no plan of bursts; a stir and a look after a burst. */
const LOOK_MS = 30_000;
export const USUAL_HANDS_MS = 5 * MINUTE_MS;
/** @type {Traits} */
export const TRAITS = { heats: true, endsByLook: true };

/** @param {RecipeMelt} step @param {StepHead} head @param {Batch} batch @returns {MeltStep} */
export function layOut(step, head, batch) {
  const heater = batch.heaters.find((each) => each.kind === step.heater);
  const rest = inBursts(step.heater) ? step.rest_ms : 0;
  const bursts = planned(step, heater, rest, batch);
  return {
    ...head,
    kind: "melt",
    mg: sum(chosen(batch, step.of).map((key) => batch.masses.get(key))),
    vessels: heatedIn(step, batch.component).map((label) => `${batch.prefix}.${label}`),
    heater: heater?.name ?? step.heater,
    bursts,
    more: bursts.length ? { ms: step.last_burst_ms, rest_ms: rest } : { ms: step.burst_ms, rest_ms: 0 },
    to_mk: step.to_mk,
    look_for: step.look_for,
  };
}

/**
 * The vessels, by label, that what is melted was weighed into.
 * @param {RecipeMelt} step @param {Component} component
 */
export function heatedIn(step, component) {
  const labels = component.steps.map((other) =>
    other.kind === "weigh" && other.lines.some((key) => step.of.includes(key)) ? other.into : null,
  );
  return [...new Set(labels.filter((label) => label !== null))];
}

/**
 * The bursts to expect, [] when the recipe or the kit does not give what an estimate needs.
 * @param {RecipeMelt} step @param {Heater | undefined} heater @param {number} rest @param {Batch} batch
 * @returns {Burst[]}
 */
function planned(step, heater, rest, batch) {
  const { from_mk: from, to_mk: to } = step;
  if (!heater?.absorbed_w || from === null || to === null) return [];
  const keys = chosen(batch, step.of);
  const heats = keys.flatMap((key) => {
    const { heat } = batch.ingredients.get(key);
    return heat ? [heatUj(batch.masses.get(key), heat, from, to)] : [];
  });
  if (heats.length < keys.length || !keys.some((key) => batch.masses.get(key))) return [];
  const total = heats.reduce((uj, each) => uj + each, 0n);
  return burstPlan(total, heater.absorbed_w, step.burst_ms, step.last_burst_ms, rest);
}

/** How long its bursts take, with a stir and a look after each. @param {MeltStep} step */
export const plannedMs = ({ bursts }) => sum(bursts.map(({ ms, rest_ms }) => ms + rest_ms + LOOK_MS));
