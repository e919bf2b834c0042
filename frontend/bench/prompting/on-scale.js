/** A pour as the scale shows it, and where it goes. */

import { coming, loads, tooFull } from "../capacity.js";
import { allowedMg } from "../weighing.js";
import { reading } from "../whole.js";
import { divisionNow, factorOf, scaleOf } from "./view.js";
/** @import { OnScale, SheetLine, WeighHow } from "../../../bench/shapes/page" */
/** @import { View } from "./view.js" */

/** @typedef {{how: WeighHow, add: number, amount: string, reads: number | null, before: number}} Pouring */

/** @param {View} view @param {SheetLine} line @param {Pouring} given @returns {OnScale} */
export function onScale(view, line, { how, add, amount, reads, before }) {
  const scale = scaleOf(view, view.state.lines[line.id].scale);
  return {
    line: line.id,
    name: line.name,
    add_mg: add,
    add: amount,
    reads_mg: reads,
    reads: reads === null ? "" : reading(reads, divisionNow(view, line)),
    before_mg: before,
    how,
    scale: scale?.name ?? "",
    division_mg: scale?.division_mg ?? null,
    ...(scale?.division_uoz ? { division_uoz: scale.division_uoz } : {}),
    tolerance_mg: allowedMg(line, scale?.division_mg, ...factorOf(view, line)),
    vessel: line.vessel,
  };
}

/**
 * That what is still to come is more than the vessel or its scale takes, before it is passed.
 * @param {View} view @param {SheetLine} line
 */
export function filling({ sheet, state }, line) {
  return tooFull(sheet, state, loads(sheet, line, coming(sheet, state, line)))?.says ?? "";
}
