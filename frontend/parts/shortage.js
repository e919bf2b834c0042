// What the shelf has too little of for a size that is not begun, and the largest batch that it is enough for.
//
//   const short = makeShortage({ onmost: (pieces) => … });
//   short.node, short.write({ entries, runs, elsewhere, today }, sheet)
//   await short.offer({ …, isStill })        // at rest: the most that it is enough for
//
// A gram that another open batch has set aside is not counted (parts/stock.js).

import { makeSheet } from "../bench/sheet/index.js";
import { toDivision } from "../bench/whole.js";
import { say } from "../words.js";
import { h, sameData, setText, show } from "./dom.js";
import { amountOf, lackingFor } from "./stock.js";
import { pieces } from "./words.js";
/** @import { GatherIngredient, Kit, MeasuredRecipe, Sheet, Size } from "../../bench/shapes/page" */
/** @import { Stocked } from "./stock.js" */

/**
 * @typedef {Stocked & {today: string}} Today
 * @typedef {{stock: Today, recipe: MeasuredRecipe, sheet: Sheet, size: Size, kit: Kit, isStill: () => boolean}} Asked
 */

/** @param {GatherIngredient} need */
const missing = ({ name, mg, count, short, division_mg: division }) =>
  say("page-size-short-of", {
    name,
    amount: amountOf({ count: mg ? null : count }, mg ? toDivision(short, { mg: division ?? 1 }) : short),
  });

/** @param {{onmost: (pieces: number) => void}} given */
export function makeShortage({ onmost }) {
  let most = 0;
  /** @type {readonly GatherIngredient[]} */
  let seen = [];
  const title = h("p", { class: "short" });
  const list = h("ul", { class: "plain small" });
  const button = h("button", { type: "button", class: "outlined", onclick: () => onmost(most) });
  const buy = h("a", { class: "button quiet to-buying" }, say("page-title-buying"));
  const node = h("div", { class: "size-short", role: "status", hidden: true }, title, list, button, buy);
  return {
    node,
    /** Whether that is news. @param {Today} stock @param {Sheet | null} sheet */
    write(stock, sheet) {
      const lacking = sheet ? lackingFor(stock, sheet) : [];
      if (sameData(lacking, seen)) return false;
      seen = lacking;
      setText(title, say("page-size-short", { count: lacking.length }));
      if (sheet) buy.setAttribute("href", `#/buying/${sheet.recipe.id}/${sheet.size.pieces}`);
      list.replaceChildren(...lacking.map((need) => h("li", {}, missing(need))));
      show(node, lacking.length > 0);
      show(button, false);
      return lacking.length > 0;
    },
    /** @param {Asked} asked */
    async offer(asked) {
      const enough = await mostFor(asked);
      if (enough === null) return;
      if (!enough) list.append(h("li", {}, say("page-size-none-of-it")));
      most = enough;
      setText(button, say("page-size-make-most", { pieces: pieces(enough, asked.sheet.piece) }));
      show(button, enough > 0);
    },
  };
}

/**
 * The most pieces for which the shelf has enough, below the size that it has too little for; 0 where there is not
 * enough for one, null where another size was chosen meanwhile. Needs grow with the pieces, so the middle of what is
 * left is asked until nothing is; between two of them a touch comes first.
 * @param {Asked} asked
 */
async function mostFor({ stock, recipe, sheet, size, kit, isStill }) {
  let [enough, short] = [0, size.pieces];
  while (short - enough > 1) {
    await new Promise((next) => setTimeout(next));
    if (!isStill()) return null;
    const middle = Math.floor((enough + short) / 2);
    const smaller = makeSheet(recipe, sheet.recipe, { ...size, pieces: middle }, kit);
    if (lackingFor(stock, smaller).length) short = middle;
    else enough = middle;
  }
  return enough;
}
