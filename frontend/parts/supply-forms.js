// The sheets on which buying is written: how an ingredient is bought, and what was ordered.
//
//   await askSupply({ key, there, currency, today })     // entries to keep, or null
//   await askOrder({ card, name, amount, supplier, due })

import { decimalMoney, readAmount } from "../bench/amounts.js";
import { h, sameData } from "./dom.js";
import { askForm, field, refuse, submit } from "./form.js";
import { readMuch } from "./shelf-forms.js";
import { say } from "../words.js";
/** @import { Card } from "../../bench/shapes/page" */
/** @import { ShelfSaid } from "../../types/keep" */

/** @param {string} value @param {import("../../types/dom").Props<HTMLInputElement>} [more] */
const text = (value, more = {}) => h("input", { autocomplete: "off", value, ...more });

/**
 * `there`: the card as it is by the time this is kept: what is not of buying stays as it is there.
 * @param {{key: string, there: () => Card | null, currency: string, today: string}} asked
 * @returns {Promise<ShelfSaid[] | null>}
 */
export function askSupply({ key, there, currency, today }) {
  const card = there();
  const { supplier = "", pack = "", lead_days: lead, reorder_at: point = "" } = card?.supply ?? {};
  const from = text(supplier);
  const much = text(pack, { placeholder: say("page-shelf-much-hint") });
  const days = text(lead === undefined ? "" : String(lead), { inputmode: "numeric" });
  const again = text(point, { placeholder: say("page-supply-again-hint") });
  const price = text("", { inputmode: "decimal", placeholder: say("page-shelf-price-hint") });
  const money = text(currency, { maxlength: 3, placeholder: "EUR" });
  const title = say("page-supply-title", { name: card?.name ?? key });
  /** @param {Node[]} both */
  const two = (...both) => h("div", { class: "two" }, both);
  const rows = [
    field(say("page-shelf-supplier"), from),
    two(field(say("page-supply-pack"), much), field(say("page-supply-lead"), days)),
    two(field(say("page-supply-price"), price), field(say("page-shelf-currency"), money)),
    field(say("page-supply-again"), again),
    h("p", { class: "soft small" }, say("page-supply-again-why")),
  ];
  return askForm(title, submit(say("page-common-save")), rows, () => {
    /** @type {ShelfSaid[]} */
    const entries = [];
    for (const amount of [much, again]) if (amount.value.trim()) readAmount(amount.value.trim(), null);
    const supply = Object.fromEntries(
      Object.entries({
        supplier: from.value.trim() || undefined,
        pack: much.value.trim() || undefined,
        lead_days: daysOf(days.value.trim()),
        reorder_at: again.value.trim() || undefined,
      }).filter(([, value]) => value !== undefined),
    );
    if (!sameData(supply, card?.supply ?? {})) {
      const { supply: _, ...rest } = there() ?? { name: key };
      const whole = Object.keys(supply).length ? { ...rest, supply } : rest;
      entries.push({ kind: "described", body: { ingredient: key, card: whole } });
    }
    if (price.value.trim()) {
      if (!much.value.trim()) throw refuse(say("page-supply-need-pack"));
      const of = money.value.trim().toUpperCase();
      if (!/^[A-Z]{3}$/.test(of)) throw refuse(say("page-shelf-no-currency"));
      const paid = { amount: decimalMoney(price.value.trim(), "price"), currency: of };
      entries.push({ kind: "quoted", body: { ingredient: key, ...readMuch(much), price: paid, on: today } });
    }
    if (!entries.length) throw refuse(say("page-shelf-need-change"));
    return entries;
  });
}

/** @param {string} written @returns {number | undefined} */
function daysOf(written) {
  if (!written) return undefined;
  const days = Number(written);
  if (!Number.isInteger(days) || days < 0 || days > 366) throw refuse(say("page-supply-need-days"));
  return days;
}

/**
 * @param {{card: string, name: string, amount: string, supplier: string, due: string}} asked
 * @returns {Promise<ShelfSaid[] | null>}
 */
export function askOrder({ card, name, amount, supplier, due }) {
  const much = text(amount);
  const from = text(supplier);
  const day = text(due, { type: "date" });
  const rows = [
    field(say("page-shelf-much"), much),
    field(say("page-shelf-supplier"), from),
    field(say("page-supply-due"), day),
  ];
  return askForm(say("page-buying-ordered-of", { name }), submit(say("page-common-save")), rows, () => [
    {
      kind: "ordered",
      body: {
        ingredient: card,
        ...readMuch(much),
        ...(day.value && { due: day.value }),
        ...(from.value.trim() && { supplier: from.value.trim() }),
      },
    },
  ]);
}
