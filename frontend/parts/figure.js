// What to draw beside a prompt. Pure: sheet, state, prompt, the bench's answer and an instant in;
// an element's name, its data and a caption out.
//
//   figureFor(sheet, state, prompt, bench, at) -> { element, data, caption } | null

import { heatWord } from "../bench/heating.js";
import { verbOf } from "../bench/sheet-words.js";
import { about } from "./words.js";
import { countsPieces, divides, heats, isJudged, runsByItself } from "../bench/steps/index.js";
import { say } from "../words.js";
/** @import { MeltStep, Now, PiecesStep, Prompt, Sheet, SheetVessel, SplitStep } from "../../bench/shapes/page" */
/** @import { State, Step } from "../../bench/shapes/page" */
/** @import { BowlData } from "./bowl-section.js" */
/** @import { PlateData } from "./plate-rows.js" */

const COARSE = 120; // a taper is redrawn this many times over its whole length

/**
 * The bowl of a prompt's weighing, or of its step when nothing is weighed; null when there is nothing in it.
 * @param {Sheet} sheet @param {State} state @param {Prompt} prompt @param {Step | undefined} step
 */
function bowl(sheet, state, prompt, step) {
  const weighing = prompt.weigh ?? null;
  const own = step && ("vessel" in step ? step.vessel : "into" in step ? step.into : undefined);
  const home =
    weighing?.vessel ??
    own ??
    sheet.vessels.find((vessel) => vessel.component === prompt.component && vessel.round === prompt.round)
      ?.id;
  const vessel = sheet.vessels.find((candidate) => candidate.id === home);
  if (!vessel || home === undefined) return null;

  const on = state.vessels[home]?.scale ?? vessel.scale;
  const scale = sheet.kit.scales.find(({ id }) => id === on);
  const lines = sheet.lines.filter((line) => line.vessel === home && line.mg !== null);
  const weighed = lines
    .map((line) => ({ id: line.id, name: line.name, mg: state.lines[line.id]?.in_mg ?? 0 }))
    .filter((layer) => layer.mg > 0);
  const sum = weighed.reduce((total, layer) => total + layer.mg, 0);
  const held = state.vessels[home]?.in_mg ?? sum;
  // What was poured in from elsewhere lies below; what was divided out leaves one mix behind.
  const mix = { id: "mix", name: say("page-bench-mix"), mg: held > sum ? held - sum : held };
  const layers = (held > sum ? [mix, ...weighed] : held < sum ? [mix] : weighed)
    .filter((layer) => layer.mg > 0)
    .map((layer) => ({ ...layer, amount: about(layer.mg, scale) }));
  if (layers.length === 0 && !weighing) return null;

  const next =
    weighing && weighing.add_mg > 0
      ? { name: weighing.name, mg: weighing.add_mg, amount: weighing.add }
      : null;
  const planned = lines.reduce((total, line) => total + (state.lines[line.id]?.target_mg ?? line.mg ?? 0), 0);
  const full = Math.max(planned + Math.max(0, held - sum), held + (next?.mg ?? 0));
  if (full === 0) return null;
  return {
    element: "bowl-section",
    data: { letter: prompt.letter, label: vessel.name, shape: shapeOf(sheet, vessel), full, layers, next },
    caption:
      next || held < full
        ? say("page-bench-held", { vessel: vessel.name, held: about(held, scale), full: about(full, scale) })
        : `${vessel.name}, ${about(held, scale)}`,
  };
}

/**
 * Straight-sided things are drawn as a jug, the others as a bowl.
 * @param {Sheet} sheet @param {SheetVessel} vessel
 */
function shapeOf(sheet, vessel) {
  const kind = sheet.kit.vessels.find((candidate) => candidate.name === vessel.name)?.kind;
  return ["jug", "cup", "pan"].includes(kind ?? "") ? "jug" : "bowl";
}

/** @param {"burst" | "heat"} word @param {number} given @param {number} planned */
export const heated = (word, given, planned) =>
  say("page-bench-heated", { word, given, planned: Math.max(given, planned) });

/** @param {Sheet} sheet @param {State} state @param {Prompt} prompt @param {MeltStep} step @param {number} at */
function bursts(sheet, state, prompt, step, at) {
  const burnt = state.bursts[step.id] ?? [];
  const burning = burnt.some((burst) => burst.at + burst.ms > at);
  return {
    element: "plate-row",
    data: {
      kind: "bursts",
      letter: prompt.letter,
      planned: step.bursts ?? [],
      burnt: burnt.map(({ ms, at: began }) => ({ ms, at: began })),
      now: burning ? at - (at % 500) : Infinity,
      word: heatWord(sheet, step),
    },
    caption: heated(heatWord(sheet, step), burnt.length, step.bursts?.length ?? 0),
  };
}

/** @param {State} state @param {Prompt} prompt @param {SplitStep} step */
function portions(state, prompt, step) {
  const waiting = step.portions.find((portion) => state.portions[portion.vessel] === undefined);
  return {
    element: "plate-row",
    data: {
      kind: "portions",
      letter: prompt.letter,
      portions: step.portions.map((portion) => ({
        name: portion.name,
        share: portion.share ?? 1,
        mg: state.portions[portion.vessel] ?? 0,
        next: portion === waiting,
      })),
    },
    caption: say("page-bench-portions", { count: step.portions.length }),
  };
}

/** @param {number} partial @param {number} spoiled */
export const notGood = (partial, spoiled) =>
  [
    partial ? say("page-bench-small", { count: partial }) : "",
    spoiled ? say("page-bench-spoiled", { count: spoiled }) : "",
  ].filter(Boolean);

/** @param {State} state @param {Prompt} prompt @param {PiecesStep} step */
function cavities(state, prompt, step) {
  const { good = 0, spoiled = 0, partial = 0 } = state.counts[step.id] ?? {};
  const count = state.expected[step.id] ?? step.count;
  const verb = verbOf(step);
  return {
    element: "plate-row",
    data: { kind: "cavities", letter: prompt.letter, verb, good, spoiled, partial, count },
    caption: notGood(partial, spoiled).join(", "),
  };
}

/**
 * The countdown a prompt is about, if one runs: a wait, a guide or a window of its step.
 * @param {Prompt} prompt @param {Now} bench
 */
export function countdownOf(prompt, bench) {
  const wait = bench.waits.find((candidate) => candidate.step === prompt.step);
  if (wait) {
    const until =
      wait.phase === "counting"
        ? wait.earliest_at
        : wait.phase === "look"
          ? wait.usual_at
          : (wait.latest_at ?? wait.usual_at);
    /** @type {{[phase: string]: string | undefined}} */
    const goals = { counting: "check", look: "usual", late: "past-latest" };
    const goal = goals[wait.phase] ?? (wait.latest_at === null ? "past-usual" : "latest");
    return {
      from: wait.began_at,
      earliest: wait.earliest_at,
      until,
      word: wait.word,
      phase: wait.phase,
      until_says: say("page-bench-until", { what: goal }),
    };
  }
  const guide = bench.guides.find((candidate) => candidate.step === prompt.step);
  if (!guide) return null;
  const rests = guide.rests_at ?? 0;
  const isBurst = rests > bench.at; // and its rest comes after it
  const goal = isBurst ? "stir" : "rests_at" in guide ? "rest" : "end";
  return {
    from: guide.began_at,
    earliest: null,
    until: isBurst ? rests : guide.until,
    word: guide.title,
    phase: guide.phase,
    until_says: say("page-bench-until", { what: guide.phase === "ready" ? "over" : goal }),
  };
}

/** @param {Prompt} prompt @param {Now} bench @param {number} at */
function taper(prompt, bench, at) {
  const running = countdownOf(prompt, bench);
  if (!running) return null;
  const grain = Math.max(1000, Math.floor((running.until - running.from) / COARSE));
  return {
    element: "plate-row",
    data: { kind: "taper", letter: prompt.letter, ...running, now: at - (at % grain), caption: "" },
    caption:
      running.phase === "counting" && !running.earliest
        ? running.word
        : say("page-bench-phase", { phase: running.phase }),
  };
}

/**
 * What to draw: a bowl, or another plate.
 * @typedef {{element: "bowl-section", data: BowlData, caption: string}
 *   | {element: "plate-row", data: PlateData, caption: string}} Figure
 * @param {Sheet} sheet @param {State} state @param {Prompt} prompt @param {Now} bench @param {number} at
 */

export function figureFor(sheet, state, prompt, bench, at) {
  if (prompt.kind === "finish") return null;
  const step = sheet.steps.find((candidate) => candidate.id === prompt.step);
  if (step && divides(step)) return portions(state, prompt, step);
  if (prompt.weigh) return bowl(sheet, state, prompt, step);
  if (step && heats(step)) return bursts(sheet, state, prompt, step, at);
  if (step && countsPieces(step)) return cavities(state, prompt, step);
  if (step && runsByItself(step)) return taper(prompt, bench, at);
  if (step && isJudged(step)) {
    const looks = (state.looks[step.id] ?? []).map((look) => look.answer);
    if (!looks.length) return null;
    return {
      element: "plate-row",
      data: { kind: "looks", letter: prompt.letter, looks },
      caption: say("page-bench-checked", { times: looks.length }),
    };
  }
  return taper(prompt, bench, at) ?? bowl(sheet, state, prompt, step);
}
