/** Carrying the rest up or down to match, worked out to its end. */

import { say } from "../../words.js";
import { joined } from "../brief.js";
import { carriedTo, loads, tooFull, weighedLines } from "../capacity.js";
import { inReach } from "../journal/index.js";
import { partName } from "../sheet-words.js";
import { piecesFrom } from "../yields.js";
import { allowedMg } from "../weighing.js";
import { apart, mass, moreBy, reading, sum, times } from "../whole.js";
import { answer } from "./answers.js";
import { divisionNow } from "./view.js";
/** @import { SheetLine } from "../../../bench/shapes/page" */
/** @import { Ratio, WeighedLine } from "../../../types/bench" */
/** @import { Full } from "../../../types/lists" */
/** @import { View } from "./view.js" */

/**
 * The answer that makes every target of this line's round num / den of the sheet's, worked out to its end; none
 * where that cannot work. kept: lines that stay as they are.
 * @param {View} view @param {SheetLine} line @param {"up" | "down" | "rest"} way @param {Ratio} given
 * @param {string[]} [kept]
 */
export function carry(view, line, way, [num, den], kept = []) {
  const { sheet, state } = view;
  if (!inReach(num, den)) return [];
  const { ends, over } = carriedTo(sheet, state, line, [num, den], kept);
  const full = tooFull(sheet, state, loads(sheet, line, ends));
  if (over.length || (full && !full.isCured)) return [];
  const body = {
    component: line.component,
    round: line.round,
    num,
    den,
    ...(kept.length ? { left: kept } : {}),
  };
  const says = carriedSays(view, line, [num, den], ends, full?.says ?? "");
  const label = say(`prompting-match-${way}`, { factor: times(num, den) });
  return [answer(kept.length ? "carry_rest" : "carry", label, "carried", body, { says })];
}

/**
 * Make less of what is still to come, so that it keeps its share of what is in.
 * @param {View} view @param {SheetLine} line
 */
export function carryRest(view, line) {
  const lines = weighedLines(view.sheet, line);
  const kept = lines
    .map(({ id }) => id)
    .filter((id) => view.state.lines[id].in_mg)
    .sort();
  const num = sum(kept.map((id) => view.state.lines[id].in_mg));
  const den = sum(kept.map((id) => view.lines.get(id).mg ?? 0));
  const isToCome = lines.some(({ id }) => view.state.lines[id].status === "open");
  return isToCome && num < den ? carry(view, line, "rest", [num, den], kept) : [];
}

/**
 * What carrying to match does: the yield, the top-ups, what it makes of the shares, and where it fits.
 * @param {View} view @param {SheetLine} line @param {Ratio} given @param {Full<string, number>} ends
 * @param {string} full
 */
function carriedSays(view, line, [num, den], ends, full) {
  const component = view.components.get(line.component);
  const total = sum([...ends.values()]);
  const pieces = piecesFrom(component, total);
  const part = partName(component);
  const made = mass(total, 1000);
  const tops = weighedLines(view.sheet, line).flatMap((each) => {
    const { in_mg: inMg } = view.state.lines[each.id];
    const division = divisionNow(view, each);
    const more = ends.get(each.id) - inMg;
    return inMg && more > allowedMg(each, division.mg, num, den)
      ? [say("prompting-top-up-line", { mass: reading(more, division), name: each.name })]
      : [];
  });
  const said = [
    component.piece_mg && pieces
      ? say("prompting-part-becomes-enough", { part, mass: made, pieces })
      : say("prompting-part-becomes", { part, mass: made }),
    ...(tops.length ? [say("prompting-top-up-lines", { lines: tops.join(", ") })] : []),
    ...shifted(view, line, ends),
    ...(num > den ? [say("prompting-need-more", { more: moreBy(num, den) })] : []),
  ];
  return joined(`${said.join("; ")}.`, full);
}

/**
 * The two lines whose share of the part differs most from the sheet's, once all is in.
 * @param {View} view @param {SheetLine} line @param {Full<string, number>} ends
 */
function shifted({ sheet }, line, ends) {
  const lines = weighedLines(sheet, line);
  const whole = sum([...ends.values()]);
  const meant = sum(lines.map(({ mg }) => mg));
  if (!whole || !meant) return [];
  /** @param {WeighedLine} line */
  const offOf = ({ id, mg }) => {
    const off = BigInt(ends.get(id)) * BigInt(meant) - BigInt(mg) * BigInt(whole);
    return off < 0n ? -off : off;
  };
  const found = lines
    .map((each) => ({ each, off: offOf(each) }))
    .sort((one, other) => (one.off > other.off ? -1 : one.off < other.off ? 1 : 0));
  return found
    .slice(0, 2)
    .filter(({ off }) => 1000n * off > BigInt(meant) * BigInt(whole))
    .map(({ each }) => {
      const [share, was] = apart([ends.get(each.id), whole], [each.mg, meant]);
      return say("prompting-share-moves", { name: each.name, share, was });
    });
}
