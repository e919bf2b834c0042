/** The usual cautions. The same as bench/cautions.py. */

import { say } from "../words.js";
import { coded } from "./former-words.js";
/** @import { Cautioned, Hazard } from "../../bench/shapes/page" */

/** @typedef {{hazards: readonly Hazard[], cautions: readonly string[]}} ByCode */

/** As bench/cautions.py has them: the server writes them in. @type {readonly string[]} */
const HAZARDS = [];

/** @param {string} code @returns {code is Hazard} */
const isHazard = (code) => HAZARDS.includes(code);

/**
 * What a measured recipe warns of: the usual hazards, and the maker's own cautions. One that was measured long ago has
 * the usual ones in words among these.
 * @param {Cautioned} measured
 */
export function byCode({ hazards = [], cautions }) {
  const told = [...new Set(cautions)].map((text) => ({ text, code: coded(text) }));
  return {
    hazards: [...hazards, ...told.map(({ code }) => code).filter(isHazard)],
    cautions: told.filter(({ code }) => !isHazard(code)).map(({ text }) => text),
  };
}

/** @param {ByCode} told */
export const inFull = ({ hazards, cautions }) => [
  ...hazards.map((hazard) => say(`cautions-${hazard}`)),
  ...cautions,
];
