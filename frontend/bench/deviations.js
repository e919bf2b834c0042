/** What a record departs in, and what was asked first and last: the same as bench/deviations.py. */

/** @import { DeviationKind, RecordCriterion, RecordDeviation } from "../../bench/shapes/page" */
/** @import { RecordLine, RecordStart } from "../../bench/shapes/page" */
/** @import { RecordSkipped, RecordWait, RecordWindow, Sheet, Start, State } from "../../bench/shapes/page" */

/** @type {readonly Start[]} */
export const STARTS = ["cleaned", "cleared"];

/** @param {Sheet} sheet @param {State} state @returns {RecordCriterion[]} */
export const criteriaOf = ({ good_piece = [] }, { met }) =>
  good_piece.map((wanted) => ({
    ...wanted,
    found: Object.hasOwn(met, wanted.criterion) ? met[wanted.criterion] : null,
  }));

/** @param {Sheet} sheet @param {State} state */
export const startsOf = ({ before = [] }, { ticked }) =>
  STARTS.filter((each) => before.includes(each) || Object.hasOwn(ticked, `start.${each}`)).map((what) => ({
    what,
    at: Object.hasOwn(ticked, `start.${what}`) ? ticked[`start.${what}`] : null,
  }));

/**
 * Everything that departs, in the order of the record.
 * @param {readonly RecordLine[]} lines @param {readonly RecordWait[]} waits
 * @param {readonly RecordWindow[]} windows @param {readonly RecordSkipped[]} skipped
 * @param {readonly RecordCriterion[]} criteria @param {readonly RecordStart[]} starts @returns {RecordDeviation[]}
 */
export function deviationsOf(lines, waits, windows, skipped, criteria, starts) {
  /** @typedef {readonly [DeviationKind, string, string]} Found */
  /** @param {DeviationKind} kind @param {string} of @param {readonly {step: string, title: string}[]} steps */
  const each = (kind, of, steps) =>
    steps.map(({ step, title }) => /** @type {Found} */ ([kind, `${of}.${step}`, title]));
  /** @type {Found[]} */
  const found = [
    ...(lines.some(({ actual_mg: mg }) => mg) ? starts.filter(({ at }) => at === null) : []).map(
      ({ what }) => /** @type {Found} */ (["start", `start.${what}`, what]),
    ),
    ...lines.flatMap(({ line, name, status, actual_mg: mg, within }) => {
      if (status === "left_out") return [/** @type {Found} */ (["left_out", `line.${line}`, name])];
      return mg && within === false ? [/** @type {Found} */ (["weight", `line.${line}`, name])] : [];
    }),
    ...each(
      "early",
      "wait",
      waits.filter(({ early }) => early),
    ),
    ...each(
      "late",
      "wait",
      waits.filter(({ late }) => late),
    ),
    ...each(
      "window",
      "window",
      windows.filter(({ late }) => late),
    ),
    ...each("skipped", "skipped", skipped),
    ...criteria
      .filter((wanted) => wanted.found?.answer === "no")
      .map(({ criterion }) => /** @type {Found} */ (["criterion", `good.${criterion}`, criterion])),
  ];
  return found.map(([kind, about, name]) => ({ about, kind, name }));
}
