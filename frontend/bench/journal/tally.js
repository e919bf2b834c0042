/** The tally that a fold keeps: the sheet by its ids, and what the entries taken in so far have told. */

import { full } from "../lists.js";
import { divides } from "../steps/index.js";
/** @import { Counted, GatheredLot, Heating, Look, MeasuredMass, Note } from "../../../bench/shapes/page" */
/** @import { Picture, PieceCount, Remark, Sheet, SheetLine, Signed } from "../../../bench/shapes/page" */
/** @import { AirTold, JudgementTold, LabelsTold, MetTold, ScaleProof } from "../../../bench/shapes/page" */
/** @import { Signing, Unsigned } from "../../../bench/shapes/page" */
/** @import { Draft, Ratio } from "../../../types/bench" */
/** @import { Full } from "../../../types/lists" */

/**
 * @typedef {Omit<Signing, "entries"> & {entries: string[]}} Sealing
 * @typedef {{status: "done" | "skipped", at: number, why: string}} Settled
 * @typedef {ReturnType<typeof begin>} Tally
 */

/** What pieces are wrapped in: gathered like an ingredient, though no sheet lists it. */
export const WRAP = "wrap";

/** @template {{id: string}} T @param {readonly T[]} items */
const byId = (items) => full(items.map((item) => /** @type {const} */ ([item.id, item])));

/** @param {readonly {id: string}[]} items @returns {Full<string, number>} */
const noughts = (items) => full(items.map((item) => [item.id, 0]));

/**
 * What is known before the first entry. The entries then change it, one at a time and in order.
 * @param {Sheet} sheet @param {Unsigned[]} unsigned
 */
export function begin(sheet, unsigned) {
  return {
    sheet,
    steps: byId(sheet.steps),
    lines: byId(sheet.lines),
    vessels: byId(sheet.vessels),
    parts: byId(sheet.components),
    splitOf: new Map(
      sheet.steps
        .filter((step) => divides(step))
        .flatMap((step) => step.portions.map((portion) => /** @type {const} */ ([portion.vessel, step]))),
    ),
    rounds: new Set(sheet.lines.map((line) => `${line.component}.${line.round}`)),
    weigh: sheet.size.weigh,
    startedAt: /** @type {number | null} */ (null),
    finishedAt: /** @type {number | null} */ (null),
    lastAt: /** @type {number | null} */ (null),
    settled: /** @type {Map<string, Settled>} */ (new Map()), // by step
    way: /** @type {Map<string, string>} */ (new Map()),
    began: /** @type {Map<string, number>} */ (new Map()),
    inMg: noughts(sheet.lines),
    touched: /** @type {Map<string, number>} */ (new Map()), // line -> when last
    decided: /** @type {Map<string, "left" | "left_out">} */ (new Map()), // by line
    pouredBy: /** @type {Map<string, string>} */ (new Map()), // line -> the device that told its first pour
    twice: /** @type {Map<string, string>} */ (new Map()), // line -> the last pour told by another device
    tookOut: /** @type {Map<string, string>} */ (new Map()), // line and what was seen in it -> who told first
    outTwice: /** @type {Map<string, string>} */ (new Map()), // line -> the last that another device had told
    factors: /** @type {Map<string, Ratio>} */ (new Map()), // by round
    scaleOf: full(sheet.vessels.map(({ id, scale }) => /** @type {const} */ ([id, scale]))),
    placed: /** @type {Map<string, string>} */ (new Map()), // line -> the scale that its small cup was put on
    taken: /** @type {Map<string, string>} */ (new Map()), // vessel -> the one of the kit that was taken instead
    weighedOn: /** @type {Map<string, string | null>} */ (new Map()), // line -> the scale of its last pour
    vesselMg: noughts(sheet.vessels),
    zeroMg: noughts(sheet.vessels),
    portions: /** @type {Map<string, number>} */ (new Map()),
    portionedAt: /** @type {Map<string, number>} */ (new Map()),
    portionedOf: /** @type {Set<string>} */ (new Set()), // vessel and what was seen in the bowl
    bursts: /** @type {Map<string, Draft<Heating>[]>} */ (new Map()),
    looks: /** @type {Map<string, Look[]>} */ (new Map()),
    counts: /** @type {Map<string, Draft<PieceCount>>} */ (new Map()),
    countedAt: /** @type {Map<string, number>} */ (new Map()),
    countedBy: /** @type {Map<string, Counted>} */ (new Map()), // step and device -> what it counted last
    unseeing: /** @type {Set<string>} */ (new Set()), // steps that somebody counted without saying how many were seen
    extended: /** @type {Map<string, number>} */ (new Map()),
    gatherable: new Set([...sheet.ingredients.map(({ id }) => id), WRAP]),
    number: /** @type {string | null} */ (null),
    alsoNumbered: /** @type {Set<string>} */ (new Set()),
    gathered: /** @type {GatheredLot[]} */ ([]),
    ticked: /** @type {Map<string, number>} */ (new Map()),
    measured: /** @type {MeasuredMass[]} */ ([]),
    air: /** @type {AirTold[]} */ ([]),
    proved: /** @type {ScaleProof[]} */ ([]),
    labelled: /** @type {LabelsTold[]} */ ([]),
    pictures: /** @type {Picture[]} */ ([]),
    worked: /** @type {Map<string, number>} */ (new Map()),
    signed: /** @type {Sealing | null} */ (null),
    unsigned,
    remarks: /** @type {Remark[]} */ ([]),
    notes: /** @type {Note[]} */ ([]),
    kept: /** @type {number | null} */ (null),
    met: /** @type {Map<string, MetTold>} */ (new Map()),
    judgements: /** @type {JudgementTold[]} */ ([]),
    unread: /** @type {string[]} */ ([]),
  };
}

/** @template K @param {Map<K, number>} map @param {K} key @param {number} more */
export const add = (map, key, more) => map.set(key, (map.get(key) ?? 0) + more);

/**
 * @param {Tally} tally @param {string} step @param {Settled["status"]} status @param {number} at
 * @param {string} [why]
 */
export function settle(tally, step, status, at, why = "") {
  if (tally.settled.get(step)?.status !== status) tally.settled.set(step, { status, at, why });
}

/**
 * Notes which way was taken; false when the step has no such way.
 * @param {Tally} tally @param {{step: string, way?: string}} body
 */
export function choose(tally, { step, way }) {
  if (way === undefined || !tally.steps.get(step).ways.some((each) => each.id === way)) return false;
  tally.way.set(step, way);
  return true;
}

/**
 * The scale that the next of a line is weighed on: the sheet's is a proposal.
 * @param {Tally} tally @param {SheetLine} line
 */
export function scaleNow({ vessels, scaleOf, placed }, { id, vessel, scale, cup }) {
  if (scale === null || vessel === null) return scale;
  const isMoved = !cup && scaleOf.get(vessel) !== vessels.get(vessel).scale;
  return placed.get(id) ?? (isMoved ? scaleOf.get(vessel) : scale);
}

/**
 * Closes the record by this signing, which named so many entries, of which these are here.
 * @param {Tally} tally @param {Signed} signing @param {string[]} entries @param {number} named
 */
export function sign(tally, { id, at, device, body }, entries, named) {
  tally.signed = { id, at, device, name: body.name, entries, missing: named - entries.length };
  tally.startedAt ??= at;
  tally.finishedAt ??= at;
  tally.lastAt = at;
}
