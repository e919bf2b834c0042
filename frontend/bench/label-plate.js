/** What stands on a label, part by part in its order. The same as bench/label_plate.py; the PDF draws the same. */

import { say } from "../words.js";
/** @import { Label, PlateLine, PlatePart } from "../../bench/shapes/page" */

/** @param {Label} told @param {string | null | undefined} purpose @returns {PlateLine[]} */
export function plate(
  { market, identity, net, text, batch, best_before: best, precautions, maker, clp },
  purpose,
) {
  /** @param {readonly {says: string}[]} statements */
  const joined = (statements) => statements.map(({ says }) => says).join(" ");
  /** @type {[PlatePart, string][]} */
  const lines = [
    ["name", identity],
    ["purpose", purpose ?? ""],
  ];
  if (clp) {
    lines.push(
      ["signal", clp.signal ?? ""],
      ["hazard", joined(clp.hazards)],
      ["advice", joined(clp.precautions)],
    );
  }
  lines.push(["net", net]);
  if (!clp) lines.push(["list", say("label-plate-list", { names: text })]);
  lines.push(["care", joined(precautions)]);
  if (batch) lines.push(["foot", say("label-plate-batch", { market, number: batch })]);
  if (best) {
    const [year, month, day] = best.split("-");
    lines.push(["foot", say("label-plate-best", { market, year, month, day })]);
  }
  lines.push(["maker", maker ?? ""]);
  return lines.filter(([, words]) => words).map(([part, words]) => ({ part, text: words }));
}
