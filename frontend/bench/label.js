/**
 * The label: its ingredient list from what was really weighed, and what the rules of a market ask for.
 *
 * The same as bench/label.py, which says what each rule is, where it comes from and what is a guess.
 */

import { clpOf } from "./label-clp.js";
import { begin, pieceMg, rowsOf } from "./label-list.js";
import { netText, shortfall } from "./label-net.js";
import { plate } from "./label-plate.js";
import * as rules from "./label-rules.js";
import { sum } from "./whole.js";
import { say } from "../words.js";
/** @import { Label, LabelOptions, Market } from "../../bench/shapes/page" */
/** @import { MeasuredRecipe, Sheet, State } from "../../bench/shapes/page" */

/**
 * One batch's label for one market; see bench/label.py.
 * @param {MeasuredRecipe} recipe @param {Sheet} sheet @param {State} state @param {Market} market
 * @param {LabelOptions} options @returns {Label}
 */
export function label(recipe, sheet, state, market, options) {
  const known = begin(recipe, sheet, state, market, options);
  const rows = rowsOf(known);
  const net_mg = options.net_mg ?? sum(sheet.components.map(pieceMg));
  const heights = rules.heights(known, net_mg);
  const precautions = rules.precautions(known);
  const clp = rules.isMixture(known) ? clpOf(known) : null;
  rules.warnOfTheProduct(known, clp);
  const months = rules.isOpenedIdle(known) ? null : options.opened_months;
  /** @type {Label} */
  const told = {
    market,
    identity: options.identity || recipe.title,
    ingredients: rows,
    text: rows.map(({ name }) => name).join(", "),
    net_mg,
    net: netText(net_mg, market),
    shortfall_mg: shortfall(net_mg, market),
    batch: options.batch || state.number,
    opened: months ? `${months}M` : null,
    best_before: options.best_before ?? null,
    maker: options.maker ?? null,
    precautions,
    clp,
    plate: [],
    heights,
    needs: rules.needs(known, net_mg, precautions, clp),
    warnings: known.warnings,
    not_checked: [...rules.dutiesOpen(known), ...rules.notChecked(known, clp)],
    checked: rules.checked(known, clp),
    duties: rules.duties(market, clp),
    law: say("label-law"),
  };
  return { ...told, plate: plate(told, options.function) };
}
