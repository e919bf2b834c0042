/** What stands on a lot's sticker. The same as bench/lot_plate.py. */

import { say } from "../words.js";
/** @import { PlateLine, PlatePart, ShelfLot } from "../../bench/shapes/page" */

/**
 * @param {Pick<ShelfLot, "number" | "supplier" | "received_on" | "best_before">} lot @param {string} name
 * @returns {PlateLine[]}
 */
export function lotPlate({ number, supplier, received_on, best_before: best }, name) {
  /** @type {[PlatePart, string][]} */
  const lines = [
    ["name", name],
    ["net", say("label-lot-number", { number })],
    ["purpose", supplier ?? ""],
    ["foot", say("label-lot-received", { day: received_on })],
    ["foot", best ? say("label-lot-best", { day: best }) : ""],
    ["foot", say("label-lot-opened")],
  ];
  return lines.filter(([, text]) => text).map(([part, text]) => ({ part, text }));
}
