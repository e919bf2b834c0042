/** Quiet answers: another scale than the sheet's, another vessel of the kit. */

import { say } from "../../words.js";
import { isMetal } from "../materials.js";
import { answer } from "./answers.js";
import { vesselOf } from "./view.js";
/** @import { SheetLine, Vessel, VesselState } from "../../../bench/shapes/page" */
/** @import { View } from "./view.js" */

const STAND_FIRM = ["bowl", "jug", "pan"]; // a melt is poured into no bag

/**
 * Quiet answers: another scale than the sheet's, another vessel of the kit.
 * @param {View} view @param {SheetLine} line
 */
export function otherKit(view, line) {
  const told = view.state.lines[line.id];
  const { vessel: key } = line;
  if (key === null || told.scale === null) return [];
  const { kit } = view.sheet;
  const vessel = vesselOf(view, line);
  const alone = line.cup ? { line: line.id } : {};
  const heavy = line.cup ? 0 : vessel.empty_mg + vessel.in_mg;
  const kind = kit.vessels.find(({ id }) => id === vessel.kit)?.kind ?? null;
  const fits = (/** @type {Vessel} */ each) =>
    each.id !== vessel.kit &&
    (kind === null ? each.kind !== "cup" : each.kind === kind) &&
    each.holds_mg >= vessel.in_mg;
  return [
    ...kit.scales
      .filter((scale) => scale.id !== told.scale && scale.capacity_mg >= heavy)
      .map(({ id, name }) =>
        answer(`scale_${id}`, say("prompting-other-scale", { scale: name }), "placed", {
          vessel: key,
          scale: id,
          ...alone,
        }),
      ),
    ...kit.vessels.filter(fits).map((each) => took(key, each)),
  ];
}

/**
 * What may be taken for a melt in a microwave instead: no metal, of whatever kind it is.
 * @param {View} view @param {string} key @param {VesselState} vessel
 */
export const vesselsOfGlass = (view, key, vessel) =>
  view.sheet.kit.vessels
    .filter((each) => !isMetal(each) && STAND_FIRM.includes(each.kind) && each.holds_mg >= vessel.in_mg)
    .map((each) => took(key, each));

/** @param {string} key @param {Vessel} vessel */
const took = (key, { id, name }) =>
  answer(`took_${id}`, say("prompting-other-vessel", { vessel: name }), "took", { vessel: key, instead: id });
