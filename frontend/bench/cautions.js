/** The usual cautions. The same as bench/cautions.py, which says where the words come from. */

/** @import { Hazard } from "../../bench/shapes/page" */

/** @type {{[H in Hazard]: string}} */
export const HAZARDS = {
  hot_soap:
    "Melted soap clings and burns: 60 °C can burn deeply in about 5 s. Sleeves down, cold water near.",
  hot_fat: "Hot butter or oil burns, and can catch. Low heat, never left alone, no water near it.",
  powder: "Fine powder irritates eyes and lungs. Tip it low and slowly, mask on, no fan on the bench.",
  alcohol:
    "Alcohol vapour lights easily: its flash point is near 12 °C. Heaters and flames off, window open.",
  wet_sockets: "Wet hands and mains don't mix. Dry them before the plug, the switch or the mixer.",
  superheated:
    "Microwaved liquid can boil over, when moved or stirred. Short bursts, then wait before you lift it.",
  mixer: "Stop the mixer, unplug it: only then fingers or a spatula near the whisk.",
  slippery: "Spilt oil or soap is slippery. Wipe it up before you carry anything.",
};

const CODES = new Map(
  Object.entries(HAZARDS).map(([hazard, says]) => [says, /** @type {Hazard} */ (hazard)]),
);

/**
 * Cautions as a measured recipe has them, in words: the usual ones by their hazard, the maker's own as they are.
 * @param {readonly string[]} cautions
 */
export function byCode(cautions) {
  return {
    hazards: cautions.flatMap((each) => CODES.get(each) ?? []),
    cautions: cautions.filter((each) => !CODES.has(each)),
  };
}
