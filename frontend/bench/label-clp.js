/** The label of what only scents the air, a mixture under CLP. As bench/label_clp.py, which has the sources. */

import { warn } from "./label-list.js";
import { halfEven, perCent, PPM } from "./whole.js";
import { say, sayAll } from "../words.js";
/** @import { Clp, ClpStatement, LabelNeed, LabelSize, Market, Sourced } from "../../bench/shapes/page" */
/** @import { Labelling, Organ } from "./label-list.js" */

const WORST = { eye: 30_000, skin: 50_000 };
const LESS = 10_000;
const IRRITANT = 100_000;
const LEAST_SIDE_UM = 10_000;
const PART_OF_LABEL = 15;
const LEAST_LABEL_UM = [52_000, 74_000];
const EYES = ["p305-p351-p338", "p337-p313"];
const SKIN = ["p302-p352", "p332-p313"];
const PHONE = /[0-9+][0-9 ()/.-]{5,}[0-9]/;
const UFI = /\bUFI:? ?([0-9A-Z]{4}-){3}[0-9A-Z]{4}\b/;

/** The elements of the label. @param {Labelling} known @returns {Clp} */
export function clpOf(known) {
  const { market, options } = known;
  const [eye, skin] = [category(known, "eye"), category(known, "skin")];
  const first = skin === 1 ? ["h314"] : eye === 1 ? ["h318"] : eye === 2 ? ["h319"] : [];
  const hazards = skin === 2 ? [...first, "h315"] : first;
  const isWorst = eye === 1 || skin === 1;
  const cares = hazards.length
    ? ["p102", ...(isWorst ? [] : ["p264"]), ...(eye === 2 ? EYES : []), ...(skin === 2 ? SKIN : [])]
    : [];
  /** @param {string} code @returns {ClpStatement} */
  const statement = (code) => ({
    code: code.toUpperCase().replaceAll("-", "+"),
    says: say(`label-statement-${code}`, { market }),
  });
  return {
    signal: hazards.length ? statement(isWorst ? "danger" : "warning").says : null,
    pictograms: hazards.length ? [isWorst ? "GHS05" : "GHS07"] : [],
    side_um: pictogramSide(options.size),
    hazards: hazards.map(statement),
    precautions: cares.map(statement),
    eye_ppm: sumOf(known, "eye"),
    skin_ppm: sumOf(known, "skin"),
  };
}

/** @param {Labelling} given @param {Organ} organ @param {1 | 2} category */
function ppmOf({ harm, total }, organ, category) {
  return total ? halfEven((harm.get(`${organ}${category}`) ?? 0n) * BigInt(PPM), total) : 0;
}

/** What irritates it, what does worse ten times. @param {Labelling} known @param {Organ} organ */
const sumOf = (known, organ) => 10 * ppmOf(known, organ, 1) + ppmOf(known, organ, 2);

/** @param {Labelling} known @param {Organ} organ */
function category(known, organ) {
  const worst = ppmOf(known, organ, 1);
  if (worst >= WORST[organ]) return 1;
  return worst >= LESS || sumOf(known, organ) >= IRRITANT ? 2 : null;
}

/** @param {LabelSize | null | undefined} size */
function pictogramSide(size) {
  const fifteenth = size ? Math.ceil((size.width_um * size.height_um) / PART_OF_LABEL) : 0;
  let side = Math.floor(Math.sqrt(fifteenth));
  if (side * side < fifteenth) side += 1;
  return Math.max(LEAST_SIDE_UM, side);
}

/** @param {Labelling} given @param {Clp} told @param {number} netMg @returns {LabelNeed[]} */
export function clpNeeds({ market, options }, { signal, pictograms }, netMg) {
  const maker = options.maker ?? "";
  const isDrawn = !pictograms.includes("GHS05");
  /** @type {[what: string, there: boolean, point: string][]} */
  const asked = [
    ["supplier", PHONE.test(maker), "a"],
    ["net", netMg > 0, "b"],
    ["identifier", true, "c"],
  ];
  if (signal) asked.push(["pictogram", isDrawn, "d"], ["statements", isDrawn, "g"]);
  const needs = asked.map(([what, there, point]) => ({
    what: say(`label-clp-need-${what}`, { code: pictograms.join(", ") }),
    there,
    source: say("label-source-clp", { point }),
  }));
  if (signal && market === "eu") {
    const there = [maker, ...(options.precautions ?? [])].some((text) => UFI.test(text));
    needs.push({ what: say("label-clp-need-ufi"), there, source: say("label-source-clp-memory") });
  }
  return needs;
}

/** What was reckoned, and what was not. @param {Labelling} given @param {Clp} told @returns {Sourced[]} */
export function clpOpen({ unclassed }, { signal }) {
  const [known, memory] = [say("label-source-mixture"), say("label-source-clp-memory")];
  const asked = [[say("label-clp-open-reckoned"), known]];
  if (unclassed.size) {
    asked.push([say("label-clp-open-unclassed", { names: sayAll([...unclassed]) }), known]);
  }
  asked.push([say("label-clp-open-rest"), memory]);
  if (signal) asked.push([say("label-clp-open-choice"), memory]);
  return asked.map(([says, source]) => ({ says, source }));
}

/** @param {Labelling} known @param {Clp} told */
export function warnOfTheMixture(known, { eye_ppm: eye, skin_ppm: skin, pictograms, signal }) {
  const source = say("label-source-mixture");
  const isWorst = pictograms.includes("GHS05");
  warn(known, say("label-air"), say("label-source-air"));
  if (eye >= IRRITANT) warn(known, say("label-eye-mixture", { share: perCent(eye, PPM) }), source);
  if (skin >= IRRITANT) warn(known, say("label-skin-mixture", { share: perCent(skin, PPM) }), source);
  if (known.harm.size && !isWorst) warn(known, say("label-clp-less"), source);
  if (isWorst) warn(known, say("label-clp-worst"), source);
  const { size } = known.options;
  const sides = size ? [size.width_um, size.height_um].sort((one, other) => one - other) : LEAST_LABEL_UM;
  if (signal && sides.some((side, place) => side < LEAST_LABEL_UM[place])) {
    warn(known, say("label-clp-small"), say("label-source-clp-size"));
  }
}
