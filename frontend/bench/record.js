/** The batch record: what was asked, what was done, and when. Drawn from the sheet and the journal. */

import { living } from "./journal.js";
import { halfEven, PPM, product, sum } from "./whole.js";

const CORRECTIONS = ["taken_out", "left", "left_out", "carried"];
const COUNTED = ["good", "spoiled", "partial"];

/** The plain batch record of a run, finished or not. Masses in mg, instants and times in ms. */
export function record(sheet, state, entries) {
  const letters = new Map(sheet.components.map(({ id, letter }) => [id, letter]));
  const placed = (step) => ({
    step: step.id,
    component: step.component,
    letter: letters.get(step.component),
    round: step.round,
    title: step.title,
  });
  const told = (step) => state.steps[step.id];
  const lines = sheet.lines.map((line) => lineRecord(line, state.lines[line.id], letters));
  const counts = sheet.steps
    .filter((step) => step.kind === "pieces" && (state.counts[step.id] || told(step).status === "done"))
    .map((step) => ({
      ...placed(step),
      planned: step.count,
      expected: state.expected[step.id],
      ...Object.fromEntries(COUNTED.map((field) => [field, state.counts[step.id]?.[field] ?? 0])),
    }));
  const steps = new Map(sheet.steps.map((step) => [step.id, step]));
  const unread = new Set(state.unread);
  return {
    recipe: sheet.recipe,
    size: sheet.size,
    piece: sheet.piece,
    started_at: state.started_at,
    finished_at: state.finished_at,
    lines,
    steps: sheet.steps.map((step) => {
      const { status, at, why, way } = told(step);
      const name = step.ways.find((each) => each.id === way)?.name ?? "";
      return { ...placed(step), kind: step.kind, status, at, why, way: name };
    }),
    waits: sheet.steps
      .filter((step) => step.kind === "wait" && told(step).ready_at !== null && told(step).status !== "skipped")
      .map((step) => ({ ...placed(step), ...waitRecord(step, told(step)) })),
    windows: sheet.steps.flatMap((step) => {
      const opened = (step.window?.from ?? []).map((each) => state.steps[each].at);
      if (!opened.length || opened.includes(null)) return [];
      return [{ ...placed(step), ...windowRecord(step, Math.max(...opened), told(step).at) }];
    }),
    bursts: sheet.steps
      .filter((step) => step.kind === "melt" && state.bursts[step.id])
      .map((step) => ({
        ...placed(step),
        planned: step.bursts.length,
        used: state.bursts[step.id].length,
        heated_ms: sum(state.bursts[step.id].map((burst) => burst.ms)),
      })),
    portions: sheet.steps
      .filter((step) => step.kind === "split" && step.portions.some(({ vessel }) => vessel in state.portions))
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
    corrections: living(entries)
      .filter((entry) => CORRECTIONS.includes(entry.kind) && !unread.has(entry.id))
      .map(({ at, device, kind, body }) => ({ at, device, kind, ...body })),
    notes: state.notes,
    unread: state.unread,
    yield: yielded(sheet, counts, lines),
  };
}

function waitRecord(step, { ready_at, at }) {
  const real = at === null ? null : at - ready_at;
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

function windowRecord(step, openedAt, endedAt) {
  const real = endedAt === null ? null : endedAt - openedAt;
  return {
    opened_at: openedAt,
    ended_at: endedAt,
    latest_ms: step.window.latest_ms,
    real_ms: real,
    late: real !== null && real > step.window.latest_ms,
  };
}

function lineRecord(line, told, letters) {
  const asked = told.target_mg;
  const deviation = asked === null ? null : told.in_mg - asked;
  return {
    line: line.id,
    component: line.component,
    letter: letters.get(line.component),
    round: line.round,
    name: line.name,
    instead_of: line.instead_of ?? "",
    planned_mg: line.mg,
    asked_mg: asked,
    actual_mg: told.in_mg,
    deviation_mg: deviation,
    deviation_ppm: asked ? halfEven(product(deviation, PPM), asked) : null,
    tolerance_mg: line.tolerance_mg,
    spoons: line.spoons,
    count: line.count,
    unit: line.unit,
    scale: line.scale,
    division_mg: line.division_mg,
    status: told.status,
  };
}

/** Pieces asked and made (by the last count on the sheet), and the mass that went in. */
function yielded(sheet, counts, lines) {
  const last = sheet.components.at(-1).id;
  const final = counts.filter((count) => count.component === last);
  // Of several counts in one round, the last one stands.
  const ends = [...new Map(final.map((count) => [count.round, count])).values()];
  return {
    planned: sheet.size.pieces,
    ...Object.fromEntries(COUNTED.map((field) => [field, ends.length ? sum(ends.map((count) => count[field])) : null])),
    planned_mg: sum(lines.map((line) => line.planned_mg ?? 0)),
    actual_mg: sum(lines.map((line) => line.actual_mg)),
  };
}
