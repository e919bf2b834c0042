// What goes on paper. Pure: a recipe, or a sheet, in; one plan of pages out.
//
//   planOfSheet(sheet), planOfRecipe(recipe)   // -> { title, sub, columns, totals, warnings,
//                                                   before, read, good, parts }
//
// A part has rounds, a round has steps as the bench knows them, each with `rows`: what goes in,
// [{ name, amount, reads, on, note }].

import { byCode, inFull } from "../bench/cautions.js";
import { readsIn } from "../bench/weighing.js";
import { mass, reading, shareOut, span, toDivision } from "../bench/whole.js";
import { full } from "../bench/lists.js";
import { reasonWords, warningWords } from "../bench/sheet-reasons.js";
import {
  UNNAMED,
  cautionsOf,
  noteOf,
  partName,
  plainMass,
  proofsOf,
  spoonsWords,
  startsOf,
  tooFarOf,
} from "../bench/sheet-words.js";
import { byHand, divides, isJudged, putsIn } from "../bench/steps/index.js";
import { point, say, units } from "../words.js";
import { pieces } from "./words.js";
/** @import { MeasuredRecipe, RecipeStep, Sheet, SheetLine, SheetVessel } from "../../bench/shapes/page" */
/** @import { SplitStep, Step, StepHead, StepKind, Way, Weighing } from "../../bench/shapes/page" */
/** @import { GoodPiece, Id, WrittenComponent, WrittenRecipe } from "../../bench/shapes/page" */
/** @import { Any } from "../../types/recipe" */
/** @import { Full } from "../../types/lists" */

/**
 * @typedef {{name: string, amount: string, reads: string, on: string, note: string}} PaperRow
 * @typedef {Omit<Any<Step | RecipeStep>, "from" | "ways"> & Pick<StepHead, "title" | "cautions" | "tools"> &
 *   {kind: StepKind, ways: readonly Pick<Way, "name" | "says">[], rows: PaperRow[],
 *   from: (string | undefined)[]}} PaperStep
 * @typedef {{letter: string, name: string, count: number, facts: string[], loose?: PaperRow[],
 *   rounds: {name: string, steps: PaperStep[]}[]}} PaperPart
 * @typedef {{title: string, sub: string, summary?: string, columns: readonly [string, string, string],
 *   totals: [name: string, amount: string][], warnings: string[], before: string[], read: string[],
 *   good: readonly GoodPiece[], parts: PaperPart[]}} PaperPlan
 * @typedef {SheetVessel & {held: number, zero: number}} PaperVessel
 * @typedef {Full<string, PaperVessel>} Vessels
 * @typedef {Map<string, Sheet["kit"]["scales"][number]>} Scales
 */

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
/** @param {number} number */
const decimal = (number) => String(number).replace(".", point());
/** How the room's air is, where it is asked. @param {{asks_air?: readonly Id[]}} written */
const airOf = ({ asks_air: parts = [] }) =>
  parts.length ? [say("page-bench-humidity"), say("page-bench-warmth")] : [];
/** @param {(string | null | undefined)[]} words */
const joined = (...words) => words.filter(Boolean).join(", ");

/** @param {Sheet} sheet @returns {PaperPlan} */
export function planOfSheet(sheet) {
  const lines = full(sheet.lines.map((line) => [line.id, line]));
  const titles = new Map(sheet.steps.map((step) => [step.id, step.title]));
  const onPaper = readings(sheet, lines);
  return {
    title: sheet.recipe.title,
    sub: joined(
      pieces(sheet.size.pieces, sheet.piece),
      say("page-paper-sheet-version", { number: sheet.recipe.version }),
      say(sheet.size.weigh === "tare" ? "page-paper-weigh-tare" : "page-paper-weigh-running"),
    ),
    columns: [say("page-paper-weigh"), say("page-paper-scale-reads"), say("page-paper-weighed")],
    totals: sheet.ingredients.map(({ name, mg, nl, count }) => [
      name,
      mg
        ? mass(mg, mg < 100_000 ? 10 : 1000)
        : nl
          ? `${decimal(Math.round(nl / 100_000) / 10)} ml`
          : count
            ? String(count)
            : say("prompting-to-texture"),
    ]),
    warnings: sheet.warnings.map(warningWords),
    before: startsOf(sheet),
    read: [...proofsOf(sheet), ...airOf(sheet)],
    good: sheet.good_piece ?? [],
    parts: sheet.components.map((component) => ({
      letter: component.letter,
      name: partName(component),
      count: component.count,
      facts: [
        component.piece_mg && component.id !== "assembly"
          ? say("page-paper-of-mass", { count: component.count, mass: plainMass(component.piece_mg) })
          : "",
        component.spares ? say("page-paper-of-them-spare", { count: component.spares }) : "",
        component.make_mg
          ? say("page-paper-mass-in-all", {
              mass: mass(component.make_mg, component.make_mg < 10_000 ? 100 : 1000),
            })
          : "",
        component.stays_behind_mg
          ? say("page-paper-stays", { mass: plainMass(component.stays_behind_mg) })
          : "",
        ...component.why.map(reasonWords),
      ],
      rounds: component.rounds.map(({ round, count, make_mg }) => ({
        name:
          component.rounds.length > 1
            ? say("page-paper-round", { number: round, count, mass: mass(make_mg, 1000) })
            : "",
        steps: sheet.steps
          .filter((step) => step.component === component.id && step.round === round)
          .map((step) => ({
            ...step,
            ...(isJudged(step) && step.too_far !== null ? { too_far: tooFarOf(step) } : {}),
            cautions: cautionsOf(step),
            rows: onPaper.get(step.id) ?? [],
            from: (step.window?.from ?? []).map((id) => titles.get(id)),
          })),
      })),
    })),
  };
}

/**
 * For every step that weighs: what goes in, what the scale will read, and on which scale.
 * @param {Sheet} sheet @param {Full<string, SheetLine>} lines @returns {Map<string, PaperRow[]>}
 */
function readings(sheet, lines) {
  const scales = new Map(sheet.kit.scales.map((scale) => [scale.id, scale]));
  const vessels = full(sheet.vessels.map((vessel) => [vessel.id, { ...vessel, held: 0, zero: 0 }]));
  const told = new Map();
  for (const step of sheet.steps) {
    if (putsIn(step)) {
      told.set(
        step.id,
        step.lines.map((id) => row(lines.get(id), vessels.get(step.vessel), sheet.size.weigh, scales)),
      );
    } else if (byHand(step) && step.tips?.length) {
      for (const id of step.tips) {
        vessels.get(step.into).held += vessels.get(id).held;
        Object.assign(vessels.get(id), { held: 0, zero: 0 });
      }
    } else if (divides(step)) {
      told.set(step.id, divide(step, vessels, scales));
    }
  }
  return told;
}

/**
 * @param {SheetLine} line @param {PaperVessel} vessel @param {Weighing} weigh @param {Scales} scales
 * @returns {PaperRow}
 */
function row(line, vessel, weigh, scales) {
  const about = {
    name: line.name,
    note: [noteOf(line), spoonOf(line), line.optional ? say("page-paper-optional") : ""]
      .filter(Boolean)
      .join(" "),
  };
  if (line.mg === null) {
    vessel.held += line.about_mg ?? 0;
    return {
      ...about,
      amount: spoonsWords(line.spoons) || countedOf(line),
      reads: "",
      on: say("page-paper-into", { vessel: vessel.name }),
    };
  }
  const scale = scales.get(line.scale ?? "");
  const division = scale ? readsIn(scale) : { mg: 1 };
  const climbs = weigh === "running" && !line.cup;
  if (weigh === "tare" && !line.cup) vessel.zero = vessel.held;
  const reads = climbs ? vessel.held - vessel.zero + line.mg : line.mg;
  vessel.held += line.mg;
  return {
    ...about,
    // What is too little for the scale to show stands there by its own mass.
    amount: toDivision(line.mg, division)
      ? reading(toDivision(line.mg, division), division)
      : mass(line.mg, 10),
    reads: reading(toDivision(reads, division), division),
    on: joined(scale?.name, line.cup ? say("page-paper-cup-into", { vessel: vessel.name }) : vessel.name),
  };
}

/** @param {SheetLine} line */
function spoonOf(line) {
  const spoons = spoonsWords(line.by_spoon);
  return spoons ? say("sheet-text-by-spoon", { spoons }) : "";
}

/** @param {SheetLine} line of what no scale shows */
function countedOf({ count, unit, about_mg: about }) {
  if (count === null) return say("prompting-to-texture");
  const counted = say("prompting-counted", { count, unit: unit ?? "" });
  return about ? say("sheet-text-about", { counted, mass: mass(about, 100) }) : counted;
}

/** @param {SplitStep} step @param {Vessels} vessels @param {Scales} scales @returns {PaperRow[]} */
function divide(step, vessels, scales) {
  const bowl = vessels.get(step.vessel);
  const shares = shareOut(
    bowl.held,
    step.portions.map((portion) => portion.share),
  );
  const rows = step.portions.map(({ vessel: id, name }, index) => {
    const mg = shares[index];
    const isLast = index === step.portions.length - 1;
    const vessel = vessels.get(id);
    const scale = scales.get(vessel.scale ?? "");
    const division = scale ? readsIn(scale) : { mg: 1000 };
    vessel.held += mg;
    vessel.zero += mg;
    const text = reading(toDivision(mg, division), division);
    return {
      name,
      amount: isLast ? reading(mg, division) : text,
      reads: isLast ? "" : text,
      on: isLast ? say("page-paper-stays-in-bowl") : (scale?.name ?? ""),
      note: "",
    };
  });
  bowl.held = 0;
  return rows;
}

/** @param {{version: number, document: WrittenRecipe, measured: MeasuredRecipe}} recipe @returns {PaperPlan} */
export function planOfRecipe({ version, document, measured }) {
  const piece = document.piece ?? UNNAMED;
  /** @type {({id: string} & Partial<WrittenComponent>)[]} */
  const written = [...document.components, { id: "assembly", ...document.assembly }];
  const writtenOf = full(written.map((part) => [part.id, part]));
  const titles = new Map(
    measured.components.flatMap(({ id, steps }) => steps.map((step) => [`${id}.${step.id}`, step.title])),
  );
  /** @param {string} id */
  const called = (id) => document.ingredients[id]?.name ?? id;
  return {
    title: document.title,
    sub: joined(
      say("page-paper-written-for", { pieces: pieces(document.written_for, piece) }),
      say("page-paper-card-version", { number: version }),
    ),
    summary: document.summary,
    columns: [say("page-paper-written"), say("page-paper-by-scale", { unit: units().mass }), ""],
    totals: [],
    warnings: [],
    before: startsOf(measured),
    read: airOf(measured),
    good: measured.good_piece ?? [],
    parts: measured.components
      .filter(({ steps, lines }) => steps.length || lines.length)
      .map((component, place) => {
        const { lines = [], piece: each, stays_behind: stays, loss, mould } = writtenOf.get(component.id);
        const writtenLines = full(lines.map((line) => [line.id, line]));
        const measuredLines = full(component.lines.map((line) => [line.id, line]));
        /** @param {string} key @returns {PaperRow} */
        const rowOf = (key) => {
          const line = writtenLines.get(key);
          const { ug } = measuredLines.get(key);
          const instead = (line.substitutes ?? []).map(({ ingredient, amount, says }) =>
            [say("page-paper-or", { name: joined(called(ingredient), amount) }), says]
              .filter(Boolean)
              .join(" "),
          );
          return {
            name: called(line.ingredient),
            amount: line.amount,
            reads:
              ug && !line.amount.endsWith(` ${units().mass}`)
                ? mass(Math.round(ug / 1000), ug < 100_000_000 ? 10 : 1000)
                : "",
            on: "",
            note: [line.note, line.optional ? say("page-paper-optional") : "", ...instead]
              .filter(Boolean)
              .join(" "),
          };
        };
        /** @param {readonly string[]} keys */
        const cautioned = (keys) =>
          keys.map((key) => measured.ingredients[measuredLines.get(key).ingredient]);
        const weighed = new Set(component.steps.flatMap((step) => (putsIn(step) ? step.lines : [])));
        const loose = component.lines.filter(({ id }) => !weighed.has(id)).map(({ id }) => rowOf(id));
        const steps = component.steps.map((step) => ({
          ...step,
          cautions: [step, ...(putsIn(step) ? cautioned(step.lines) : []), ...step.ways].flatMap((each) =>
            inFull(byCode(each)),
          ),
          ...(isJudged(step) && step.too_far !== null
            ? { too_far: step.too_far || say("states-too-wet") }
            : {}),
          rows: putsIn(step)
            ? step.lines.map(rowOf)
            : divides(step)
              ? step.portions.map(({ name, share }) => ({
                  name,
                  amount: say("page-paper-parts", { count: share }),
                  reads: "",
                  on: "",
                  note: "",
                }))
              : [],
          from: (step.window?.from ?? []).map((reference) => titles.get(reference)),
          bursts: [],
          count: 0,
        }));
        return {
          letter: LETTERS[place],
          name: component.name,
          count: 0,
          facts: [
            each ? say("page-paper-each", { mass: each }) : "",
            component.spares ? say("page-paper-spare", { count: component.spares }) : "",
            stays ? say("page-paper-stays-behind", { mass: stays }) : "",
            loss ? say("page-paper-lost", { mass: loss }) : "",
            mould ? say("page-paper-mould", { shape: mould.shape }) : "",
          ],
          loose,
          rounds: [{ name: "", steps }],
        };
      }),
  };
}

/**
 * A wait in words: "earliest 4 h, usual 6 h, latest 24 h".
 * @param {Pick<PaperStep, "earliest_ms" | "usual_ms" | "latest_ms">} wait
 */
export function waitWords({ earliest_ms: earliest = 0, usual_ms: usual = 0, latest_ms: latest = null }) {
  const times = { earliest: span(earliest), usual: span(usual) };
  return latest === null
    ? say("page-paper-wait", times)
    : say("page-paper-wait-latest", { ...times, latest: span(latest) });
}
