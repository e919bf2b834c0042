/** The bench as the prompts see it: a sheet, a state and an instant, by their ids. */

import { divisionOn } from "../journal/index.js";
import { full } from "../lists.js";
import { toDivision } from "../whole.js";
/** @import { Answer, LineState, Prompt, Sheet, SheetLine, State, Step } from "../../../bench/shapes/page" */
/** @import { Draft, Place, WeighedLine, WeighedState } from "../../../types/bench" */

/**
 * @typedef {ReturnType<typeof viewOf>} View
 * @typedef {Draft<Prompt> & {first?: string}} Asked first: what stands before what it says, whole
 * @typedef {Partial<Asked> & {answers: Draft<Answer>[]}} Said
 * @typedef {{line: WeighedLine, told: WeighedState}} Weighed
 */

/** @template {{id: string}} T @param {readonly T[]} items */
const byId = (items) => full(items.map((item) => /** @type {const} */ ([item.id, item])));

/** @param {Sheet} sheet @param {State} state @param {number} at */
export function viewOf(sheet, state, at) {
  return {
    sheet,
    state,
    at,
    steps: byId(sheet.steps),
    lines: byId(sheet.lines),
    vessels: byId(sheet.vessels),
    components: byId(sheet.components),
    scales: new Map(sheet.kit.scales.map((scale) => [scale.id, scale])),
    waits: new Map(state.waits.map((wait) => [wait.step, wait])),
    windows: new Map(state.windows.map((window) => [window.step, window])),
    guides: new Map(state.guides.map((guide) => [guide.step, guide])),
  };
}

/** @param {View} view @param {string} step */
export function status(view, step) {
  return view.state.steps[step].status;
}

/** @param {View} view @param {string} step */
export function isSettled(view, step) {
  return ["done", "skipped"].includes(status(view, step));
}

/**
 * Whether nothing of the step was answered yet: what holds for all of it is said now, once.
 * @param {View} view @param {Step} step
 */
export const isFirstAsked = (view, step) => status(view, step.id) !== "begun";

/** @param {Place} given */
export function roundOf({ component, round }) {
  return `${component}.${round}`;
}

/** The vessel that a line goes into, as it stands. @param {View} view @param {SheetLine} line */
export const vesselOf = (view, line) => view.state.vessels[line.vessel ?? ""];

/** @param {{line: SheetLine, told: LineState}} pour @returns {pour is Weighed} */
export const hasMass = (pour) => pour.line.mg !== null && pour.told.target_mg !== null;

/**
 * Whether a scale shows anything of a line: not what is counted, nor what is too little for it.
 * @param {View} view @param {SheetLine} line
 */
export function shows(view, line) {
  const pour = { line, told: view.state.lines[line.id] };
  return hasMass(pour) && toDivision(pour.told.target_mg, divisionNow(view, line)) > 0;
}

/**
 * Above nought when the line's round was carried up, below when it was carried down.
 * @param {View} view @param {SheetLine} line
 */
export function carried(view, line) {
  const [num, den] = factorOf(view, line);
  return num - den;
}

/** @param {View} view @param {Place} line @returns {[number, number]} */
export const factorOf = (view, line) => {
  const [num, den] = view.state.factors[roundOf(line)] ?? [1, 1];
  return [num, den];
};

/** @param {View} view @param {string | null} key */
export const scaleOf = (view, key) => (key === null ? undefined : view.scales.get(key));

/** What the scale that a line goes onto now reads in. @param {View} view @param {SheetLine} line */
export const divisionNow = (view, line) =>
  divisionOn(view.sheet, view.state.lines[line.id].scale) ?? { mg: 1 };
