/**
 * What a recipe still being written comes to, as far as it can be read.
 *
 *   const { components, faults, piece_mg } = sketch(document);
 *   faults.get("components.0.lines.2.amount")     // what cannot be read there, and the way out
 *
 * `read_recipe` on the server has the last word and refuses a document for its first fault; here
 * everything that can be read is, and every fault is named. Components carry `lines` and `steps` as
 * a measured recipe does, so that what draws one draws the other. Masses are µg or mg, whole.
 */

import {
  DROP_NL,
  minus,
  nearest,
  over,
  plus,
  readAmount,
  readCelsiusMk,
  readDensity,
  readDurationMs,
  readMassMg,
  readPpm,
  times,
} from "./amounts.js";
import { BenchError } from "./errors.js";
import { isPlain } from "./steps/index.js";
import { say } from "../words.js";
import { halfEven, perCent, PPM, product, reading } from "./whole.js";
/** @import { Measures, MouldNeed, WrittenComponent } from "../../bench/shapes/page" */
/** @import { WrittenLine, WrittenRecipe, WrittenStep } from "../../bench/shapes/page" */
/** @import { Amount, Fraction } from "./amounts.js" */

/** @type {Fraction} */
const NOTHING = [0n, 1n];
/** @type {Fraction} */
const ONE = [1n, 1n];
/** @typedef {(text: string, where?: string) => Fraction | number} Reader */

/** @param {string[]} names @param {Reader} read @returns {{[field: string]: Reader}} */
const each = (names, read) => Object.fromEntries(names.map((name) => [name, read]));
/** How each written field is read, by its name; none of these names means two things. */
const READERS = {
  ...each(["piece", "stays_behind", "part", "mass"], readMassMg),
  ...each(["loss", "tolerance", "limit", "share", "active"], readPpm),
  ...each(
    ["every", "latest", "earliest", "usual", "hands", "about", "burst", "last_burst", "rest"],
    readDurationMs,
  ),
  ...each(["from_c", "to_c", "melts_c", "most_c"], readCelsiusMk),
  ...each(["g_per_ml", "tapped_g_per_ml"], readDensity),
};

const MOST_KEPT = 1000; // readings
/** @type {Map<string, Amount>} */
const kept = new Map();

/**
 * An amount as `readAmount` has it. With each key one of them is another, and the rest are as they were.
 * @param {string} text @param {Measures | null} measures @param {string} where
 */
function readOnce(text, measures, where) {
  const key = `${measures} ${text}`;
  const known = kept.get(key);
  if (known) return known;
  const got = readAmount(text, measures, where);
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(key, got);
  return got;
}

/**
 * A part as it is being written: a component, or the assembly with a component's id and name.
 * @typedef {Partial<WrittenComponent> & {id: string, name: string, steps: readonly WrittenStep[]}} WrittenPart
 * @typedef {"piece" | "stays_behind" | "loss"} Sized
 * @typedef {{id: string, ingredient: string, got: Amount | null, ug: Fraction | null, by: Fraction | null}} Reading
 * @typedef {{id: string, ingredient: string, kind: string, ug: number | null, nl: number | null,
 *   about_ug: number | null, unit: string, of_part_ppm: number | null, of_piece_ppm: number | null}} SketchLine
 * @typedef {{id: string, kind: WrittenStep["kind"], title: string, word: string, after: string[],
 *   window: {from: string[], latest_ms: number | null} | null, usual_ms: number | null}} SketchStep
 * @typedef {{id: string, name: string, takes: number, piece_mg: number, needed_mg: number | null, total_ug: number,
 *   lines: SketchLine[], steps: SketchStep[]}} SketchPart
 * @typedef {{components: SketchPart[], faults: Map<string, string>, piece_mg: number}} Sketch
 */

/** @param {WrittenRecipe} document @returns {Sketch} */
export function sketch(document) {
  /** @type {Map<string, string>} */
  const faults = new Map();
  /** @template T @param {string} where @param {() => T} work @returns {T | null} */
  const read = (where, work) => {
    try {
      return work();
    } catch (error) {
      if (!(error instanceof BenchError)) throw error;
      faults.set(where, error.says);
      return null;
    }
  };
  /** @param {string} text @param {string} where */
  const amount = (text, where) => read(where, () => readOnce(text, document.measures ?? null, where));
  walk(document, "", (key, text, where) => {
    if (key === "amount") amount(text, where);
    else if (Object.hasOwn(READERS, key)) read(where, () => READERS[key](text, where));
  });

  const whole =
    Number.isInteger(document.written_for) && document.written_for > 0 ? document.written_for : null;
  if (whole === null) faults.set("written_for", say("page-recipe-fault-count"));
  const takes = new Map(
    document.assembly?.takes.map(({ component, count }) => [component, Number.isInteger(count) ? count : 1]),
  );
  // What comes after one that goes on beside a wait comes after that wait.
  /** @type {Map<string, string>} */
  const lasts = new Map(
    [...document.components, { id: "assembly", steps: [], ...document.assembly }].flatMap(({ id, steps }) =>
      steps.flatMap((step) =>
        "during" in step ? [/** @type {const} */ ([`${id}.${step.id}`, `${id}.${step.during}`])] : [],
      ),
    ),
  );
  /** @type {SketchPart[]} */
  const components = document.components.map((written, place) =>
    component(written, `components.${place}`, takes.get(written.id) ?? 1),
  );
  if (document.assembly) {
    // Joining comes after all that is made, unless its first step says otherwise.
    components.push(
      component(
        { id: "assembly", name: say("page-recipe-joining"), ...document.assembly },
        "assembly",
        1,
        components.flatMap(endsOf),
      ),
    );
  }
  const piece_mg = components.reduce((total, { takes: count, piece_mg: mg }) => total + count * mg, 0);
  for (const part of components) {
    for (const line of part.lines) {
      line.of_part_ppm =
        part.total_ug && line.ug !== null ? halfEven(product(line.ug, PPM), part.total_ug) : null;
      line.of_piece_ppm =
        line.of_part_ppm !== null && piece_mg
          ? halfEven(product(part.takes * part.piece_mg, line.of_part_ppm), piece_mg)
          : null;
    }
  }
  return { components, faults, piece_mg };

  /**
   * @param {WrittenPart} written @param {string} where @param {number} count @param {string[]} [first]
   * @returns {SketchPart}
   */
  function component(written, where, count, first = []) {
    /** @param {Sized} key @param {(text: string) => number} reader */
    const got = (key, reader) => {
      const text = written[key];
      return text ? read(`${where}.${key}`, () => reader(text)) : null;
    };
    const pieces = whole && whole * count + (written.spares || 0);
    const behind = got("stays_behind", readMassMg) ?? 0;
    let loss = got("loss", readPpm) ?? 0;
    if (loss === PPM) {
      faults.set(`${where}.loss`, say("amounts-loses-all"));
      loss = 0;
    }
    let piece = got("piece", readMassMg);
    if (piece === 0)
      faults.set(`${where}.piece`, say("page-recipe-fault-tiny-piece", { least: reading(1, { mg: 1 }) }));
    const needed = piece && pieces ? halfEven(product(pieces * piece + behind, PPM), PPM - loss) : null;
    const lines = linesOf(written, where, needed);
    const total_ug = lines.reduce((total, { ug }) => total + (ug ?? 0), 0);
    if (!piece && total_ug && pieces)
      piece = Math.max(
        0,
        halfEven(
          BigInt(total_ug) * BigInt(PPM - loss) - BigInt(behind) * BigInt(1000 * PPM),
          BigInt(pieces) * BigInt(1000 * PPM),
        ),
      );
    return {
      id: written.id,
      name: written.name,
      takes: count,
      piece_mg: piece ?? 0,
      needed_mg: needed,
      total_ug,
      lines,
      steps: stepsOf(written, first),
    };
  }

  /**
   * Parts and per cents become masses once the rest, or the piece, says how much there is.
   * @param {WrittenPart} written @param {string} where @param {number | null} needed @returns {SketchLine[]}
   */
  function linesOf(written, where, needed) {
    const { part: one } = written;
    const part = one ? read(`${where}.part`, () => readMassMg(one)) : null;
    /** @type {Reading[]} */
    const lines = (written.lines ?? []).map((line, index) => {
      const got = line.amount ? amount(line.amount, `${where}.lines.${index}.amount`) : null;
      const density = document.ingredients[line.ingredient]?.density?.g_per_ml;
      const by = density ? read("", () => readDensity(density)) : null;
      /** @type {Fraction | null} */
      let ug = null;
      if (got?.kind === "mass") ug = got.value;
      else if (got?.kind === "volume" && by) ug = times(got.value, by);
      else if (got?.kind === "parts" && part) ug = times(got.value, [BigInt(part) * 1000n, 1n]);
      return { id: line.id, ingredient: line.ingredient, got, ug, by };
    });
    /** @param {Reading[]} those @param {(line: Reading) => Fraction | null | undefined} of */
    const sum = (those, of) => those.reduce((total, line) => plus(total, of(line) ?? NOTHING), NOTHING);
    const percent = sum(
      lines.filter(({ got }) => got?.kind === "percent"),
      ({ got }) => got?.value,
    );
    const loose = lines.filter(({ got, ug }) => got?.kind === "parts" && !ug);
    const parts = sum(loose, ({ got }) => got?.value);
    const fixed = sum(lines, ({ ug }) => ug);
    const rest = minus(ONE, percent);
    /** @type {Fraction | null} */
    let total = null;
    if (rest[0] < 0n || (rest[0] === 0n && (parts[0] || fixed[0]))) {
      faults.set(
        `${where}.lines`,
        say("page-recipe-fault-per-cents", { share: perCent(percent[0], percent[1]) }),
      );
    } else if (parts[0] && fixed[0]) {
      faults.set(`${where}.part`, say("page-recipe-fault-part-word"));
    } else if (parts[0] || (percent[0] && !fixed[0])) {
      if (needed) total = [BigInt(needed) * 1000n, 1n];
      else if (!written.piece) faults.set(`${where}.piece`, say("page-recipe-fault-no-mass"));
    } else if (rest[0]) total = over(fixed, rest);
    return lines.map(({ id, ingredient, got, ug, by }) => {
      let mass = ug;
      if (total && got?.kind === "percent") mass = times(total, got.value);
      else if (total && got?.kind === "parts" && !ug)
        mass = over(times(times(total, rest), got.value), parts);
      const nl =
        got?.kind === "volume" ? got.value : got?.unit === "drops" ? times(got.value, DROP_NL) : null;
      const about = nl && by && !mass ? times(nl, by) : null;
      return {
        id,
        ingredient,
        kind: got?.kind ?? "",
        ug: mass && nearest(mass),
        nl: nl && nearest(nl),
        about_ug: about && nearest(about),
        unit: got?.unit ?? "",
        of_part_ppm: null,
        of_piece_ppm: null,
      };
    });
  }

  /**
   * A step comes after the one before it; one that goes on beside a wait begins with that, and holds nothing up.
   * @param {WrittenPart} written @param {string[]} first @returns {SketchStep[]}
   */
  function stepsOf(written, first) {
    let before = first;
    const steps = written.steps.map((step) => {
      const measured = measuredStep(step, before, written.id);
      if (!("during" in step)) before = [step.id];
      return measured;
    });
    return steps.map((step, place) => {
      const { after, ...own } = written.steps[place];
      const beside = "during" in own && !after && steps.find(({ id }) => id === own.during);
      return beside ? { ...step, after: beside.after } : step;
    });
  }

  /** @param {WrittenStep} step @param {string[]} before @param {string} component @returns {SketchStep} */
  function measuredStep(step, before, component) {
    const full = (/** @type {string} */ reference) => {
      const whole = reference.includes(".") ? reference : `${component}.${reference}`;
      return lasts.get(whole) ?? whole;
    };
    const ms = (/** @type {string | undefined} */ text) =>
      text ? read("", () => readDurationMs(text)) : null;
    const needs = (step.after ?? before).map(full);
    return {
      id: step.id,
      kind: step.kind,
      title: step.title,
      word: ("word" in step && step.word) || "",
      after: needs,
      window: step.window
        ? { from: step.window.from ? [full(step.window.from)] : needs, latest_ms: ms(step.window.latest) }
        : null,
      usual_ms: ms("usual" in step ? step.usual : undefined),
    };
  }
}

/** The steps of a component, "component.step", that none of its own comes after. @param {SketchPart} part */
function endsOf({ id, steps }) {
  const needed = new Set(steps.flatMap(({ after }) => after));
  return steps
    .filter(isPlain)
    .map((step) => `${id}.${step.id}`)
    .filter((key) => !needed.has(key));
}

/**
 * Every text of the document, with its key and its path.
 * @param {object | null} value @param {string} where @param {(key: string, text: string, at: string) => void} visit
 */
function walk(value, where, visit) {
  for (const [key, inner] of Object.entries(value ?? {})) {
    const at = where ? `${where}.${key}` : key;
    if (typeof inner === "string") {
      if (inner) visit(key, inner, at);
    } else if (typeof inner === "object") walk(inner, at, visit);
  }
}

/** @param {Partial<WrittenLine>} line */
const isBlank = ({ ingredient, amount }) => !ingredient && !amount?.trim();

/**
 * The document to send: without lines that are still empty, and with what a field not touched means.
 * @param {WrittenRecipe} document @returns {WrittenRecipe}
 */
export function tidy(document) {
  /** @template {{lines?: readonly WrittenLine[], mould?: MouldNeed}} T @param {T} written @returns {T} */
  const part = (written) => ({
    ...written,
    ...(written.lines ? { lines: written.lines.filter((line) => !isBlank(line)) } : {}),
    ...(written.mould ? { mould: Object.assign({ held: false }, written.mould) } : {}),
  });
  const assembly = document.assembly ? { assembly: part(document.assembly) } : {};
  return { ...document, components: document.components.map(part), ...assembly };
}

/**
 * A path into the tidied document as a path into the one that is being written.
 * @param {WrittenRecipe} document @param {string} path
 */
export function untidyPath(document, path) {
  const found = /^(components\.(\d+)|assembly)\.lines\.(\d+)(.*)$/.exec(path);
  if (!found) return path;
  const [, root, place, index, rest] = found;
  const lines = (place === undefined ? document.assembly : document.components[Number(place)])?.lines ?? [];
  const kept = lines.flatMap((line, at) => (isBlank(line) ? [] : [at]));
  return `${root}.lines.${kept[Number(index)] ?? index}${rest}`;
}
