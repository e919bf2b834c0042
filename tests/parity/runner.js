/** Runs cases over frontend/bench in the browser; tests/parity/python_side.py does the same over bench/. */

import * as bench from "/bench/index.js";
import { sketch } from "/bench/draft.js";
import {
  readAmount,
  readCelsiusMk,
  readDensity,
  readDurationMs,
  readMassMg,
  readPpm,
} from "/bench/amounts.js";
import { stretches } from "/bench/bench-hours.js";
import { batchNumber, recipeCode } from "/bench/batch-number.js";
import { digestText } from "/bench/digest.js";
import { dryness, drynessOf } from "/bench/dryness.js";
import { canEmpty } from "/bench/emptying.js";
import { ifYouStop, nextStep, withWhoStayed } from "/bench/foresight.js";
import { gather } from "/bench/gather.js";
import { inUse, mouldHolds, vesselHolds } from "/bench/holding.js";
import { inOrder } from "/bench/entries.js";
import { Folding, frozenSeal, ofRecord, seal } from "/bench/journal/index.js";
import { COMMON, labelPlaces, sheetFault, sheetTitle } from "/bench/label-sheets.js";
import { Day, Layout } from "/bench/layout.js";
import { pick, useOf } from "/bench/lots.js";
import { record } from "/bench/record.js";
import { chooseSize, makeSheet, openSheet } from "/bench/sheet/index.js";
import { stand, toldOfPieces } from "/bench/pieces.js";
import { foldShelf, leftOf, nameKey } from "/bench/shelf.js";
import { sha256 } from "/bench/sha256.js";
import { keepsMs } from "/bench/states.js";
import { makeProblem, tasksOf } from "/bench/tasks.js";
import { halfEven, moreBy, perCent, shareOut, times } from "/bench/whole.js";

/** A fraction as text, "3/2": JSON has none. */
const asText = ([top, bottom]) => `${top}/${bottom}`;

/** Of a recipe still being written: each component's pieces and lines, and where it cannot be read. */
function sketched(document) {
  const { components, faults } = sketch(document);
  const told = components.map(({ id, piece_mg, lines, steps }) => ({
    id,
    piece_mg,
    lines: lines.map(({ ug }) => ug),
    after: steps.map(({ after }) => after),
    waits: steps.map(({ usual_ms }) => usual_ms),
  }));
  return { components: told, faults: [...faults.keys()] };
}

/** A day laid out by an order; by the plain rule's when there is none. */
function layOut(problem, order, at, pace) {
  const day = new Day(problem, at);
  const numbers = day.byNeed(order.length ? order : day.latestFinishFirst());
  const { placed, start, end, maker, finish, broken } = new Layout(day, numbers, { pace });
  return {
    order: numbers,
    placed,
    start,
    end,
    maker,
    finish,
    broken: broken.map(({ over, gap }) => ({ over, to: gap.to })),
  };
}

const HOURS = {
  zone: "Europe/London",
  daily: [
    ["9:00", "12:30"],
    ["19:00", "22:00"],
  ],
};
const DAY_MS = 86_400_000;
const MOST_LED = 25; // as in python_side.py

/** A sheet of a former version opened, its journal folded, and what the bench says of both. */
function opened(kept, recipe, entries, at) {
  const sheet = openSheet(kept, recipe);
  const state = bench.fold(sheet, entries);
  return {
    sheet,
    state,
    now: bench.now(sheet, state, at),
    holds: mouldHolds(sheet),
    record: record(sheet, state, entries),
  };
}

/** The run's day from an instant on: what there is to do, and what is said of it. */
function dayOf(sheet, state, at) {
  return orError(() => {
    const part = tasksOf(sheet, { state, run: "run", hands: { [sheet.steps[0].id]: 100_000 } });
    const problem = makeProblem([part], [{ name: "You", hours: HOURS }], at, at + 30 * DAY_MS);
    if (problem.tasks.length > MOST_LED) return { problem };
    return {
      problem,
      laid: layOut(problem, [], at, 1000),
      next: nextStep(problem, new Day(problem, at).latestFinishFirst(), at),
    };
  });
}

const CALLS = {
  at_the_bench: (sheet, entries, at) => {
    const state = bench.fold(sheet, entries);
    return { state, now: bench.now(sheet, state, at), tasks: tasksOf(sheet, { state }) };
  },
  stretches,
  keeps_ms: keepsMs,
  lay_out: layOut,
  can_empty: (problem, at) => canEmpty(new Day(problem, at)),
  next_step: nextStep,
  with_who_stayed: (problem, order, at) => withWhoStayed(new Day(problem, at), order).problem,
  if_you_stop: ifYouStop,
  held: (sheet) => [...vesselHolds(sheet), ...mouldHolds(sheet)],
  opened,
  in_use: (run, others) => {
    const laid = ({ name, sheet, entries }) => ({
      name,
      sheet,
      state: bench.fold(sheet, entries),
    });
    return inUse(laid(run), others.map(laid));
  },
  read_amount: (...given) => {
    const { kind, value, unit } = readAmount(...given);
    return { kind, value: asText(value), unit };
  },
  read_density: (...given) => asText(readDensity(...given)),
  read_celsius_mk: readCelsiusMk,
  read_duration_ms: readDurationMs,
  read_mass_mg: readMassMg,
  read_ppm: readPpm,
  sketch: sketched,
  half_even: halfEven,
  share_out: shareOut,
  per_cent: perCent,
  more_by: moreBy,
  times,
  to_division: (mg, division, uoz = null) => bench.toDivision(mg, { mg: division, uoz }),
  canonical: bench.canonical,
  mass: bench.mass,
  reading: (mg, division, uoz = null) => bench.reading(mg, { mg: division, uoz }),
  temperature: bench.temperature,
  span: bench.span,
  wait_phase: bench.waitPhase,
  window_phase: bench.windowPhase,
  guide_phase: bench.guidePhase,
  warn_at: bench.warnAt,
  rings: bench.rings,
  fold_shelf: foldShelf,
  left_of: leftOf,
  nameKey,
  pick,
  batch_number: batchNumber,
  recipe_code: recipeCode,
  dryness,
  common_sheets: () =>
    COMMON.map((each) => ({
      title: sheetTitle(each),
      fault: sheetFault(each),
      places: labelPlaces(each, 3, 70),
    })),
  sheet_fault: sheetFault,
  digest_text: digestText,
  sha256,
};

/** What the error says, when the trade's own; any other error is a fault of the code. */
function orError(work) {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof bench.BenchError)) throw error;
    return { error: { where: error.where, says: error.says } };
  }
}

export function call({ call: name, with: given }) {
  return orError(() => CALLS[name](...given));
}

/** The state as a phone folds it: of a journal that grows, entry by entry; the same as of all at once. */
function grown(sheet, entries, frozen) {
  const folding = new Folding(sheet);
  const ordered = inOrder(entries);
  ordered.forEach((_, place) => folding.of(ordered.slice(0, place), frozen));
  const state = folding.of(ordered, frozen);
  const [one, other] = [state, bench.fold(sheet, entries, frozen)].map((each) => bench.canonical(each));
  if (one !== other) throw new Error(`Grown, it is ${one}; at once, ${other}`);
  return state;
}

/** A batch from its size to its record, with what the shelf says to gather and what was used of it. */
export function batch({ recipe, kit, request, entries, instants, shelf, uses, before = [], frozen, tame }) {
  return orError(() => {
    const sized = chooseSize(recipe, kit, request);
    const sheet = makeSheet(recipe, { id: "recipe-1", version: 1 }, sized.size, kit);
    const state = grown(sheet, entries, frozen);
    const said = instants.map((at) => bench.now(sheet, state, at));
    const stock = foldShelf(shelf);
    const told = record(sheet, state, entries);
    return {
      days: instants.slice(0, 1).map((at) => dayOf(sheet, state, at)),
      of_record: ofRecord(state, entries).map(({ id }) => id),
      seal: seal(tame),
      frozen: frozenSeal(entries, frozen),
      sized,
      sheet,
      state,
      now: said,
      record: told,
      shelf: stock,
      pieces: Object.fromEntries(
        Object.entries(toldOfPieces(shelf)).map(([id, moved]) => [
          id,
          { ...stand({ good: 60, kept: 1 }, moved), place: moved.place },
        ]),
      ),
      uses: useOf(sheet, state, entries),
      gather: gather(recipe, sheet, state, stock, uses, "2026-11-25", false, before),
      dryness: sheet.steps.flatMap(({ id }) => drynessOf(sheet, state, id, 20_000)),
    };
  });
}

/** JSON in, JSON out: what goes through the page is text, exactly as it would come over the wire. */
export function run(name, cases) {
  const work = { call, batch }[name];
  return JSON.stringify(JSON.parse(cases).map((each) => bench.canonical(work(each))));
}
