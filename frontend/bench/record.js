/**
 * The batch record: what was asked, what was done, and when. Drawn from the sheet and the journal.
 *
 * The same as bench/record.py, which says what the less plain of its fields hold.
 */

import { kindsThat } from "./entries.js";
import { criteriaOf, deviationsOf, startsOf } from "./deviations.js";
import { handsOn, tellers } from "./hands.js";
import { heatWord } from "./heating.js";
import { divisionOn, toldOf } from "./journal/index.js";
import { full, last } from "./lists.js";
import { useOf } from "./lots.js";
import { releaseOf } from "./release.js";
import { spoonsWords } from "./sheet-words.js";
import { allowedMg } from "./weighing.js";
import { halfEven, PPM, product, sum, toDivision } from "./whole.js";
import { countsPieces, divides, heats, runsByItself } from "./steps/index.js";
/** @import { Balance, Correction, Entry, MeasuredWhat, Record as BatchRecord } from "../../bench/shapes/page" */
/** @import { RecordCount, RecordLine, RecordLot, RecordPerson, Sheet, SheetLine } from "../../bench/shapes/page" */
/** @import { State, Step, StepState, WaitStep, Window, Yield } from "../../bench/shapes/page" */
/** @import { Full } from "../../types/lists" */

const WRAP = "wrap"; // what pieces are wrapped in: gathered like an ingredient, though no sheet lists it
const CORRECTIONS = kindsThat("correction");

/**
 * The plain batch record of a run, finished or not.
 * @param {Sheet} sheet @param {State} state @param {readonly Entry[]} entries @returns {BatchRecord}
 */
export function record(sheet, state, entries) {
  const letters = full(sheet.components.map(({ id, letter }) => /** @type {const} */ ([id, letter])));
  /** @param {Step} step */
  const placed = (step) => ({
    step: step.id,
    component: step.component,
    letter: letters.get(step.component),
    round: step.round,
    title: step.title,
  });
  const stands = (/** @type {Step} */ step) => state.steps[step.id];
  const unread = new Set(state.unread);
  const told = toldOf(state, entries).filter(({ id }) => !unread.has(id));
  const lines = sheet.lines.map((line) => lineRecord(line, sheet, state, letters));
  const counts = sheet.steps
    .filter((step) => countsPieces(step))
    .filter((step) => state.counts[step.id] || stands(step).status === "done")
    .map((step) => {
      const { good = 0, spoiled = 0, partial = 0 } = state.counts[step.id] ?? {};
      return {
        ...placed(step),
        planned: step.count,
        expected: state.expected[step.id],
        ...{ good, spoiled, partial },
      };
    });
  const steps = full(sheet.steps.map((step) => /** @type {const} */ ([step.id, step])));
  const toldBy = tellers(sheet);
  /** @type {{[step: string]: Set<string>}} */
  const by = {};
  for (const { body, device } of told) (by[toldBy(body)] ??= new Set()).add(device);
  const waits = sheet.steps
    .filter((step) => runsByItself(step))
    .filter((step) => stands(step).ready_at !== null && stands(step).status !== "skipped")
    .map((step) => ({ ...placed(step), ...waitRecord(step, stands(step)) }));
  const windows = sheet.steps.flatMap((step) => {
    const { window } = step;
    const opened = (window?.from ?? []).flatMap((each) => state.steps[each].at ?? []);
    if (!window || !opened.length || opened.length < window.from.length) return [];
    return [{ ...placed(step), ...windowRecord(window, Math.max(...opened), stands(step).at) }];
  });
  const passedOver = sheet.steps.filter((step) => stands(step).status === "skipped");
  const skipped = skippedOf(passedOver).map((step) => ({
    ...placed(step),
    at: stands(step).at,
    why: stands(step).why,
  }));
  const criteria = criteriaOf(sheet, state);
  const starts = startsOf(sheet, state);
  return {
    recipe: sheet.recipe,
    number: state.number,
    also_numbered: state.also_numbered,
    size: sheet.size,
    piece: sheet.piece,
    started_at: state.started_at,
    finished_at: state.finished_at,
    signed: state.signed && { ...state.signed, entries: state.signed.entries.length },
    unsigned: state.unsigned,
    people: peopleOf(told),
    kit: kitOf(sheet, state),
    lots: lotsOf(sheet, state, entries),
    lines,
    steps: sheet.steps.map((step) => {
      const { status, at, why, way } = stands(step);
      const name = step.ways.find((each) => each.id === way)?.name ?? "";
      return { ...placed(step), kind: step.kind, status, at, why, way: name, by: [...(by[step.id] ?? [])] };
    }),
    waits,
    windows,
    bursts: sheet.steps
      .filter((step) => heats(step))
      .filter((step) => state.bursts[step.id])
      .map((step) => ({
        ...placed(step),
        planned: step.bursts.length,
        used: state.bursts[step.id].length,
        word: heatWord(sheet, step),
        mg: step.mg,
        heated_ms: sum(state.bursts[step.id].map((burst) => burst.ms)),
      })),
    portions: sheet.steps
      .filter((step) => divides(step))
      .filter((step) => step.portions.some(({ vessel }) => vessel in state.portions))
      .map((step) => ({
        ...placed(step),
        portions: step.portions
          .filter(({ vessel }) => vessel in state.portions)
          .map(({ name, vessel }) => ({ name, mg: state.portions[vessel] })),
      })),
    looks: Object.keys(state.looks)
      .sort()
      .map((key) => ({
        ...placed(steps.get(key)),
        tries: state.looks[key].filter((look) => look.answer !== "yes").length,
        looks: state.looks[key],
      })),
    counts,
    corrections: told.flatMap((entry, place) =>
      CORRECTIONS.has(entry.kind) ? [correction(entry, because(sheet, told.slice(0, place), entry))] : [],
    ),
    skipped,
    added: told
      .filter(({ kind }) => kind === "extended")
      .map(({ at, body }) => ({ ...placed(steps.get(String(body.step))), at, ms: Number(body.ms) })),
    notes: state.notes,
    air: state.air,
    proved: state.proved,
    labelled: state.labelled,
    pictures: state.pictures,
    starts,
    criteria,
    deviations: deviationsOf(lines, waits, windows, skipped, criteria, starts),
    release: releaseOf(state),
    judgements: state.judgements,
    remarks: state.remarks,
    unread: state.unread,
    yield: yielded(sheet, state, counts, lines),
    balance: balanceOf(sheet, state, counts),
    hands: handsOn(sheet, state, entries),
  };
}

/**
 * Steps passed over: a wait and the thing to do that it is for, one step as written, are told of once.
 * @param {readonly Step[]} steps
 */
function skippedOf(steps) {
  const lowered = steps.filter((step) => step.until);
  return steps.filter(
    ({ id, title }) =>
      !lowered.some((each) => each.title === title && each.after.length === 1 && each.after[0] === id),
  );
}

/** A correction as it was entered, and the line that it answers. @param {Entry} entry @param {string | null} line */
const correction = ({ at, device, kind, body }, line) =>
  /** @type {Correction} */ (/** @type {unknown} */ ({ at, device, kind, ...body, because: line }));

/** @param {Entry} entry */
const lineOf = ({ body }) => (typeof body.line === "string" ? body.line : null);

/**
 * The line that a correction answers: its own, or the one last weighed in the round that was carried.
 * @param {Sheet} sheet @param {readonly Entry[]} before @param {Entry} entry
 */
function because({ lines }, before, entry) {
  if (entry.kind !== "carried") return lineOf(entry);
  const { body } = entry;
  const mine = new Set(
    lines
      .filter(({ component, round }) => component === body.component && round === body.round)
      .map(({ id }) => id),
  );
  const weighed = before.findLast((each) => each.kind === "weighed" && mine.has(String(each.body.line)));
  return weighed ? lineOf(weighed) : null;
}

/** @param {readonly Entry[]} told */
function peopleOf(told) {
  /** @type {Map<string, RecordPerson>} */
  const people = new Map();
  for (const { device, at } of told) {
    const { first_at, entries } = people.get(device) ?? { first_at: at, entries: 0 };
    people.set(device, { device, first_at, last_at: at, entries: entries + 1 });
  }
  return [...people.values()].sort((one, other) => (one.device < other.device ? -1 : 1));
}

/**
 * The scales that lines and portions were weighed on, the vessels and the heaters.
 * @param {Sheet} sheet @param {State} state
 */
function kitOf({ kit, steps }, state) {
  const vessels = Object.values(state.vessels);
  const scales = new Set([
    ...Object.values(state.lines).map(({ scale, weighed_on: last }) => last ?? scale),
    ...vessels.map(({ scale }) => scale),
  ]);
  return {
    scales: kit.scales.filter(({ id }) => scales.has(id)),
    vessels: [...new Set(vessels.map(({ name }) => name))],
    heaters: [...new Set(steps.filter((step) => heats(step)).map(({ heater }) => heater))],
  };
}

/** @param {Sheet} sheet @param {State} state @param {readonly Entry[]} entries @returns {RecordLot[]} */
function lotsOf(sheet, state, entries) {
  const names = new Map(sheet.ingredients.map(({ id, name }) => [id, name]));
  return Object.entries(useOf(sheet, state, entries)).map(([lot, { mg, count, booked_mg }]) => {
    const ingredients = state.gathered.filter((each) => each.lot === lot).map(({ ingredient }) => ingredient);
    const said = [...new Set(ingredients.map((each) => names.get(each) ?? each))];
    const wrap = ingredients.every((each) => each === WRAP);
    return { lot, names: said, wrap, mg, count, booked_mg, over_mg: Math.max(0, mg - booked_mg) };
  });
}

/**
 * How long something took: nought, and not less, where a clock was set back meanwhile.
 * @param {number} began @param {number} ended
 */
const length = (began, ended) => Math.max(0, ended - began);

/** @param {WaitStep} step @param {StepState} stands */
function waitRecord(step, { ready_at: ready, at }) {
  const ready_at = ready ?? 0;
  const real = at === null ? null : length(ready_at, at);
  return {
    word: step.word,
    began_at: ready_at,
    ended_at: at,
    earliest_ms: step.earliest_ms,
    usual_ms: step.usual_ms,
    latest_ms: step.latest_ms,
    real_ms: real,
    early: real !== null && real < step.earliest_ms,
    late: real !== null && step.latest_ms !== null && real > step.latest_ms,
  };
}

/** @param {Window} window @param {number} openedAt @param {number | null} endedAt */
function windowRecord(window, openedAt, endedAt) {
  const real = endedAt === null ? null : length(openedAt, endedAt);
  return {
    opened_at: openedAt,
    ended_at: endedAt,
    latest_ms: window.latest_ms,
    real_ms: real,
    late: real !== null && real > window.latest_ms,
  };
}

/**
 * @param {SheetLine} line @param {Sheet} sheet @param {State} state @param {Full<string, string>} letters
 * @returns {RecordLine}
 */
function lineRecord(line, sheet, state, letters) {
  const told = state.lines[line.id];
  const scale = told.weighed_on ?? told.scale;
  const division = divisionOn(sheet, scale);
  const [num, den] = state.factors[`${line.component}.${line.round}`] ?? [1, 1];
  const asked = told.target_mg;
  const deviation = asked === null ? null : told.in_mg - asked;
  return {
    line: line.id,
    component: line.component,
    letter: letters.get(line.component),
    round: line.round,
    step: line.step,
    name: line.name,
    instead_of: line.instead_of,
    planned_mg: line.mg,
    asked_mg: asked,
    actual_mg: told.in_mg,
    deviation_mg: deviation,
    deviation_ppm: asked && deviation !== null ? halfEven(product(deviation, PPM), asked) : null,
    tolerance_mg: line.tolerance_mg,
    within: deviation === null ? null : Math.abs(deviation) <= allowedMg(line, division?.mg, num, den),
    spoons: spoonsWords(line.spoons),
    count: line.count,
    unit: line.unit,
    scale,
    division_mg: division?.mg ?? null,
    ...(division?.uoz ? { division_uoz: division.uoz } : {}),
    status: told.status,
  };
}

/** How many of the good pieces were kept back: no more than there are. @param {State} state @param {number} good */
const keptOf = (state, good) => Math.min(state.kept ?? 0, good);

/** Of several counts in one round of a component, the last one on the sheet. @param {RecordCount[]} counts */
function lastCounts(counts) {
  return [...full(counts.map((count) => [`${count.component}.${count.round}`, count])).values()];
}

/**
 * Where the mass that went in has gone; null before the last count. See bench/record.py.
 * @param {Sheet} sheet @param {State} state @param {RecordCount[]} counts @returns {Balance | null}
 */
function balanceOf(sheet, state, counts) {
  const { components, lines } = sheet;
  const final = last(components).id;
  const ends = lastCounts(counts);
  if (!ends.some(({ component }) => component === final)) return null;
  const weighed = weighedPieces(sheet, state, final);
  /** @type {Full<string, number>} */
  const takes = full(components.map((part) => [part.id, part.takes]));
  /** @type {Full<string, number>} */
  const mean = full(
    components.map(({ id, piece_mg }) => {
      const masses = weighed.get(id);
      return [id, masses ? halfEven(sum(masses), masses.length) : piece_mg];
    }),
  );
  if (!weighed.has(final)) mean.set(final, sum([...mean].map(([id, mg]) => takes.get(id) * mg)));
  /** @param {RecordCount[]} of @param {string} id @param {...("good" | "spoiled" | "partial")} fields */
  const count = (of, id, ...fields) =>
    sum(of.filter(({ component }) => component === id).flatMap((each) => fields.map((field) => each[field])));
  const spoiled = full(components.map(({ id }) => /** @type {const} */ ([id, count(counts, id, "spoiled")])));
  const made = count(ends, final, "good");
  const kept = keptOf(state, made);
  const good = made - kept;
  const partial = count(ends, final, "partial");
  const begun = made + partial + spoiled.get(final);
  const others = components.filter(({ id }) => id !== final);
  const spare = others.map(
    ({ id }) => mean.get(id) * Math.max(0, count(ends, id, "good", "partial") - takes.get(id) * begun),
  );
  const measured = (/** @type {MeasuredWhat} */ what) =>
    state.measured.filter((each) => each.what === what).map(({ mg }) => mg);
  const binned = measured("spoiled");
  const scales = Object.values(state.lines).map(({ scale, weighed_on: last }) => last ?? scale);
  const division = scales
    .map((scale) => divisionOn(sheet, scale) ?? { mg: 1 })
    .reduce((one, other) => (other.mg > one.mg ? other : one), { mg: 1 });
  const show = (/** @type {number} */ mg) => toDivision(mg, division);
  const shown = {
    good_mg: show(good * mean.get(final)),
    kept_mg: show(kept * mean.get(final)),
    spoiled_mg: show(sum(binned.length ? binned : [...spoiled].map(([id, each]) => each * mean.get(id)))),
    spare_mg: show(sum(spare)),
    left_mg: show(sum(measured("left"))),
  };
  const in_mg = show(sum(lines.map(({ id }) => state.lines[id].in_mg)));
  return {
    in_mg,
    ...shown,
    unaccounted_mg: in_mg - sum(Object.values(shown)),
    expected_loss_mg: sum(components.map((each) => Math.max(0, each.make_mg - each.count * each.piece_mg))),
    division_mg: division.mg,
    ...(division.uoz ? { division_uoz: division.uoz } : {}),
    good,
    kept,
    partial,
    spoiled: sum([...spoiled.values()]),
    piece_mg: mean.get(final),
    weighed: weighed.get(final)?.length ?? 0,
  };
}

/**
 * The masses of the pieces that were weighed, by component, each as it was last weighed.
 * @param {Sheet} sheet @param {State} state @param {string} final
 */
function weighedPieces(sheet, state, final) {
  const componentOf = new Map(sheet.steps.map(({ id, component }) => [id, component]));
  /** @type {Map<string, {component: string, mg: number}>} */
  const latest = new Map();
  state.measured.forEach(({ what, step, piece, mg }, place) => {
    const component = componentOf.get(step ?? "") ?? final;
    if (what === "piece") latest.set(`${component}.${piece ?? -place - 1}`, { component, mg });
  });
  /** @type {Map<string, number[]>} */
  const weighed = new Map();
  for (const { component, mg } of latest.values())
    weighed.set(component, [...(weighed.get(component) ?? []), mg]);
  return weighed;
}

/**
 * Pieces asked and made (by the last count on the sheet), and the mass that went in; see bench/record.py.
 * @param {Sheet} sheet @param {State} state @param {RecordCount[]} counts @param {RecordLine[]} lines @returns {Yield}
 */
function yielded(sheet, state, counts, lines) {
  const final = last(sheet.components).id;
  const ends = lastCounts(counts).filter(({ component }) => component === final);
  const made = (/** @type {"good" | "spoiled" | "partial"} */ field) =>
    ends.length ? sum(ends.map((count) => count[field])) : null;
  const good = made("good");
  const kept = keptOf(state, good ?? 0);
  return {
    planned: sheet.size.pieces,
    good: good === null ? null : good - kept,
    spoiled: made("spoiled"),
    partial: made("partial"),
    kept: good === null ? null : kept,
    planned_mg: sum(lines.map((line) => line.planned_mg ?? 0)),
    actual_mg: sum(lines.map((line) => line.actual_mg)),
  };
}
