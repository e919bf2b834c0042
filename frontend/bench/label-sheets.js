/** Sheets of labels: their geometry, and where each label comes. The same as bench/label_sheets.py. */

import { times } from "./whole.js";
import { say } from "../words.js";
/** @import { LabelPlace, LabelSheet, Paper } from "../../bench/shapes/page" */

export const INCH_UM = 25_400;
/** @type {{[P in Paper]: readonly [width: number, height: number]}} */
export const PAPERS = { a4: [210_000, 297_000], letter: [215_900, 279_400] };
const SLACK_UM = 500;

/** @typedef {[across: number, down: number]} Pair */
/**
 * @param {Paper} paper @param {Pair} grid @param {Pair} label @param {Pair} first @param {Pair} pitch
 * @returns {LabelSheet}
 */
const sheet = (paper, [columns, rows], [width_um, height_um], [left_um, top_um], [across_um, down_um]) => ({
  name: `${paper}-${columns}x${rows}`,
  paper,
  columns,
  rows,
  width_um,
  height_um,
  left_um,
  top_um,
  across_um,
  down_um,
});

/** @type {readonly LabelSheet[]} */
export const COMMON = [
  sheet("a4", [2, 4], [99_100, 67_700], [4_650, 13_100], [101_600, 67_700]),
  sheet("a4", [2, 7], [99_100, 38_100], [4_650, 15_150], [101_600, 38_100]),
  sheet("a4", [3, 7], [63_500, 38_100], [7_200, 15_150], [66_040, 38_100]),
  sheet("a4", [3, 8], [70_000, 37_000], [0, 500], [70_000, 37_000]),
  sheet("a4", [5, 13], [38_100, 21_200], [4_750, 10_700], [40_640, 21_200]),
  sheet("letter", [2, 5], [101_600, 50_800], [3_969, 12_700], [106_363, 50_800]),
  sheet("letter", [3, 10], [66_675, 25_400], [4_763, 12_700], [69_850, 25_400]),
];

/** A common sheet by its size; one of the maker's own by its name. @param {LabelSheet} sheet */
export function sheetTitle(sheet) {
  if (!COMMON.includes(sheet)) return sheet.name;
  const { columns, rows, paper } = sheet;
  const [width, height] = [sheet.width_um, sheet.height_um].map((side) =>
    times(side, paper === "a4" ? 1000 : INCH_UM),
  );
  return say("label-sheet-title", { columns, rows, width, height, paper });
}

/** Why labels cannot lie so, as a code; null where they can. @param {LabelSheet} sheet */
export function sheetFault({ paper, columns, rows, ...um }) {
  const [width, height] = PAPERS[paper];
  if (columns > 1 && um.across_um < um.width_um) return "over_across";
  if (rows > 1 && um.down_um < um.height_um) return "over_down";
  if (um.left_um + (columns - 1) * um.across_um + um.width_um > width + SLACK_UM) return "too_wide";
  if (um.top_um + (rows - 1) * um.down_um + um.height_um > height + SLACK_UM) return "too_high";
  return null;
}

/**
 * Where so many labels come, page by page, row by row; on the first page from the start position, from 1.
 * @param {LabelSheet} sheet @param {number} start @param {number} count @returns {LabelPlace[][]}
 */
export function labelPlaces({ columns, rows, left_um, top_um, across_um, down_um }, start, count) {
  const each = columns * rows;
  const first = Math.min(Math.max(start, 1), each) - 1;
  /** @type {LabelPlace[][]} */
  const pages = [];
  for (let place = first; place < first + count; place += 1) {
    const at = place % each;
    const [row, column] = [Math.floor(at / columns), at % columns];
    if (place === first || at === 0) pages.push([]);
    pages[pages.length - 1].push({ x_um: left_um + column * across_um, y_um: top_um + row * down_um });
  }
  return pages;
}
