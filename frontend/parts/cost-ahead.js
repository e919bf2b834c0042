// What a size will cost before it is made, as the server works it out by the shelf's prices: a line, and its parts.
//
//   screen.costTold(await costAhead(screen, recipe.id, size))     // null: nothing to say

import { h } from "./dom.js";
import { askOnline } from "./online.js";
import { named } from "./record-parts.js";
import { mass } from "../bench/whole.js";
import { point, say, sayAll } from "../words.js";
/** @import { CostParts, Size } from "../../bench/shapes/page" */

/** @type {readonly (keyof CostParts)[]} */
const PARTS = ["materials", "sprays", "hands", "cleaning", "labelling", "wrap", "packaging", "overhead"];

/** A decimal as text, as the page's language writes it. @param {string} amount */
const decimal = (amount) => amount.replace(".", point());

/** @param {HTMLElement} screen @param {string} recipe @param {Size} size */
export async function costAhead(screen, recipe, size) {
  const { pieces, without, swaps, weigh } = size;
  const told = await askOnline(screen, "POST", `/recipes/${recipe}/cost`, {
    by: "pieces",
    pieces,
    without,
    swaps,
    weigh,
  });
  if ("says" in told) return null;
  const { totals, materials, unpriced } = told;
  const known = Object.entries(totals).filter(([, { total }]) => Number(total));
  if (!known.length) return null;
  const line = known
    .map(([currency, { total, per_piece: each }]) =>
      say("page-cost-about", {
        total: `${decimal(total)} ${currency}`,
        each: `${decimal(each ?? total)} ${currency}`,
      }),
    )
    .join(" ");
  const names = [...new Set(unpriced.flatMap((each) => each.names.map(named)))];
  return h(
    "details",
    { class: "cost-ahead" },
    h("summary", {}, line),
    h(
      "ul",
      { class: "plain small" },
      materials.map(({ names: of, mg, count, read, currency, number }) =>
        h(
          "li",
          {},
          say(number ? "page-cost-row" : "page-cost-row-to-buy", {
            name: of.join(", "),
            amount: count ? say("page-shelf-pieces", { count }) : mass(mg, mg < 10_000 ? 10 : 1000),
            number,
            cost: `${decimal(read)} ${currency}`,
          }),
        ),
      ),
      known.flatMap(([currency, sums]) =>
        PARTS.filter((what) => Number(sums[what])).map((what) =>
          h("li", {}, say("page-cost-part", { what }), ": ", decimal(sums[what]), " ", currency),
        ),
      ),
      known.map(([currency, { sale }]) =>
        sale ? h("li", {}, say("page-cost-price", { price: `${decimal(sale.price)} ${currency}` })) : null,
      ),
      names.length ? h("li", { class: "past" }, say("page-cost-unpriced", { names: sayAll(names) })) : null,
    ),
  );
}
