/** The strip of waits, windows and guides. */

import { say } from "../../words.js";
import { stakeOf } from "../states.js";
import { guidePhase, waitPhase, windowPhase } from "../waits.js";
import { guarding } from "./urgency.js";
import { runsByItself } from "../steps/index.js";
/** @import { OpenWindow, RunningGuide, RunningWait, WaitPhase } from "../../../bench/shapes/page" */
/** @import { View } from "./view.js" */

/** @param {View} view */
export function waitsNow(view) {
  return byUrgency(view.state.waits, (each) => each.earliest_at).map((each) => waitNow(view, each));
}

/** @param {View} view */
export function windowsNow(view) {
  return byUrgency(view.state.windows, (each) => each.latest_at).map((each) => windowNow(view, each));
}

/** @param {View} view */
export function guidesNow(view) {
  return byUrgency(view.state.guides, (each) => each.until).map((each) => guideNow(view, each));
}

/** @template {{step: string}} T @param {readonly T[]} items @param {(item: T) => number} at */
function byUrgency(items, at) {
  return [...items].sort(
    (one, other) => at(one) - at(other) || (one.step < other.step ? -1 : one.step > other.step ? 1 : 0),
  );
}

/** @param {View} view @param {string} key */
function placed(view, key) {
  const step = view.steps.get(key);
  return {
    step: key,
    component: step.component,
    letter: view.components.get(step.component).letter,
    title: step.title,
  };
}

/** What a wait asks for by now. @param {WaitPhase} phase @param {string} word @param {string} stake */
function asksOf(phase, word, stake) {
  switch (phase) {
    case "counting":
      return "";
    case "look":
      return say("prompting-may-be-over", { word });
    case "ready":
      return say("prompting-should-be-over", { word });
    case "soon_late":
      return stake || say("prompting-soon-late");
    case "late":
      return stake || say("prompting-late");
  }
}

/** @param {View} view @param {RunningWait} wait */
function waitNow(view, wait) {
  const step = view.steps.get(wait.step);
  const { word, stake } = runsByItself(step) ? step : { word: "", stake: "" };
  const phase = waitPhase(wait, view.at);
  return { ...placed(view, wait.step), ...wait, word, phase, asks: asksOf(phase, word, stake) };
}

/** @param {View} view @param {OpenWindow} window */
function windowNow(view, window) {
  const stake = stakeOf(guarding(view, view.steps.get(window.step)) ?? {});
  return { ...placed(view, window.step), ...window, phase: windowPhase(window, view.at), stake };
}

/** @param {View} view @param {RunningGuide} guide */
function guideNow(view, guide) {
  return { ...placed(view, guide.step), ...guide, phase: guidePhase(guide, view.at) };
}
