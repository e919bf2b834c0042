// The sheets on which something about the shelf is written: a lot that came, an ingredient's card,
// and what is written off.
//
//   await askLot({ shelf, today, currency, ingredient })   // [{kind, body}] entries to keep, or null
//   await askCard({ key, card })                           // the same
//   await askLoss({ lot, name, left })                     // the same

import { decimalMoney, plainNumber, readAmount, readDensity } from "../bench/amounts.js";
import { saysOf } from "../bench/errors.js";
import { readMoney } from "../bench/cost.js";
import { halfEven } from "../bench/whole.js";
import { openDialog } from "./dialog.js";
import { h, sameData, setText, show } from "./dom.js";
import { canScan, scanCode } from "./scanner.js";
import { idFor } from "./words.js";
/** @import { Card, Hazard, Price, ReceivedBody, Shelf } from "../../bench/shapes/page" */
/** @import { Child, Props } from "../../types/dom" */
/** @import { ShelfSaid } from "../../types/keep" */

/** @typedef {{-readonly [P in keyof Card]: Card[P]}} Kept a card that is being written */

const NEW = "";
/** @type {[value: Hazard, says: string][]} */
const HAZARDS = [
  ["powder", "Fine powder"],
  ["alcohol", "Alcohol vapour"],
  ["hot_fat", "Hot butter or oil"],
  ["hot_soap", "Melted soap"],
  ["slippery", "Slippery when spilt"],
  ["superheated", "Boils over late in a microwave"],
];

/**
 * A modal form; `read` gives what to answer, or throws an error whose `says` is shown and the form stays.
 * @template T @param {string} title @param {string} answer @param {readonly Child[]} rows @param {() => T} read
 * @returns {Promise<T | null>}
 */
function askForm(title, answer, rows, read) {
  const trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  /** @type {T | null} */
  let given = null;
  const form = h(
    "form",
    {
      method: "dialog",
      class: "stack",
      novalidate: true,
      onsubmit: (event) => {
        try {
          given = read();
        } catch (error) {
          const says = saysOf(error);
          if (!says) throw error;
          event.preventDefault();
          setText(trouble, says);
          show(trouble, true);
        }
      },
    },
    h("h2", {}, title),
    rows,
    trouble,
    h("button", { type: "submit", value: "given", class: "copper" }, answer),
    h(
      "button",
      {
        type: "button",
        class: "quiet knuckle",
        onclick: ({ currentTarget }) => currentTarget.closest("dialog")?.close(),
      },
      "Back",
    ),
  );
  const dialog = h("dialog", { "aria-label": title }, form);
  return openDialog(dialog).then(() => given);
}

/** @param {string} says */
function refuse(says) {
  return Object.assign(new Error(says), { says });
}

/** @param {string} label @param {HTMLElement} input */
const field = (label, input) => h("label", { class: "field" }, h("span", {}, label), input);
/** @param {Props<HTMLInputElement>} [props] */
const text = (props = {}) => h("input", { autocomplete: "off", ...props });
/** @param {HTMLInputElement | HTMLTextAreaElement} input */
const written = (input) => input.value.trim();

/** @param {HTMLInputElement} input @param {string} says */
function needed(input, says) {
  const value = written(input);
  if (value) return value;
  input.focus();
  throw refuse(says);
}

/**
 * {mg} or {count} of an amount as people write it.
 * @param {HTMLInputElement} input @returns {{mg: number} | {count: number}}
 */
function readMuch(input) {
  const { kind, value } = readAmount(needed(input, "Write how much: 1 kg, or 50 pieces."), null);
  if (kind === "mass") return { mg: halfEven(value[0], value[1] * 1000n) };
  const count = Number(value[0]) / Number(value[1]);
  if (kind === "counted" && Number.isInteger(count)) return { count };
  throw refuse("Write how much as a mass or in pieces: 1 kg, or 50 pieces.");
}

/**
 * A price as the maker writes it, or undefined.
 * @param {HTMLInputElement} amount @param {HTMLInputElement} currency @param {HTMLInputElement} percent
 * @param {HTMLInputElement} included @returns {Price | undefined}
 */
function readPrice(amount, currency, percent, included) {
  if (!written(amount)) return undefined;
  const price = {
    amount: decimalMoney(written(amount), "price"),
    currency: needed(currency, "Say the currency, such as EUR.").toUpperCase(),
  };
  readMoney(price.amount, "price");
  if (!/^[A-Z]{3}$/.test(price.currency))
    throw refuse("A currency is three letters, such as EUR, GBP or USD.");
  if (written(percent)) {
    const tax = { percent: plainNumber(written(percent)), included: included.checked };
    readMoney(tax.percent, "tax");
    return { ...price, tax };
  }
  return price;
}

/**
 * @param {{shelf: Shelf, today: string, currency?: string, ingredient?: string | null, code?: string}} asked
 * @returns {Promise<ShelfSaid[] | null>}
 */
export function askLot({ shelf, today, currency = "", ingredient = null, code = "" }) {
  const known = Object.entries(shelf.ingredients)
    .flatMap(([key, { card }]) => (card ? [{ key, name: card.name }] : []))
    .sort((one, other) => one.name.localeCompare(other.name));
  /** @type {HTMLSelectElement} */
  const pick = h(
    "select",
    { onchange: () => show(fresh, pick.value === NEW) },
    known.map(({ key, name: label }) => h("option", { value: key, selected: key === ingredient }, label)),
    h("option", { value: NEW, selected: known.length === 0 }, "Something new"),
  );
  const name = text();
  const inci = text({ placeholder: "as it stands on a label" });
  const fresh = h("div", { class: "stack" }, field("Its trade name", name), field("Its INCI name", inci));
  show(fresh, known.length === 0);
  const supplier = text();
  const number = text();
  const much = text({ placeholder: "1 kg" });
  const best = text({ type: "date" });
  const received = text({ type: "date", value: today });
  const amount = text({ inputmode: "decimal", placeholder: "12.50" });
  const money = text({ value: currency, maxlength: 3, placeholder: "EUR" });
  const percent = text({ inputmode: "decimal", placeholder: "19" });
  const included = h("input", { type: "checkbox", checked: true });
  const scanned = text({ value: code });
  const scan = async () => {
    const found = await scanCode({ title: "Scan what is on the package" });
    if (found) scanned.value = found;
  };
  const rows = [
    field("What came", pick),
    fresh,
    h("div", { class: "two" }, field("How much", much), field("Supplier's lot number", number)),
    field("Supplier", supplier),
    h("div", { class: "two" }, field("Best before", best), field("Received on", received)),
    h("div", { class: "two" }, field("Price paid", amount), field("Currency", money)),
    h(
      "div",
      { class: "two" },
      field("Tax, per cent", percent),
      h("label", { class: "choice" }, included, h("span", {}, "The price includes it")),
    ),
    h(
      "div",
      { class: canScan() ? "with-scan" : null },
      field("Bar code or QR text", scanned),
      canScan() ? h("button", { type: "button", class: "outlined", onclick: scan }, "Scan") : null,
    ),
  ];
  return askForm("A lot came", "Put it on the shelf", rows, () => {
    /** @type {ShelfSaid[]} */
    const entries = [];
    let key = pick.value;
    if (key === NEW) {
      key = idFor(needed(name, "Write its trade name."), new Set(Object.keys(shelf.ingredients)));
      entries.push({
        kind: "described",
        body: {
          ingredient: key,
          card: { name: written(name), ...(written(inci) && { inci: written(inci) }) },
        },
      });
    }
    const body = {
      ingredient: key,
      number: needed(number, "Write the supplier's lot number: a recall goes by it."),
      ...readMuch(much),
      received_on: needed(received, "Say on which day it came."),
    };
    const price = readPrice(amount, money, percent, included);
    /** @type {{-readonly [F in keyof ReceivedBody]?: ReceivedBody[F]}} */
    const more = {};
    if (written(supplier)) more.supplier = written(supplier);
    if (written(best)) more.best_before = written(best);
    if (written(scanned)) more.code = written(scanned);
    if (price) more.price = price;
    return [...entries, { kind: "received", body: { ...body, ...more } }];
  });
}

/**
 * A CAS number whose last digit fits the others: each times its place from the right, modulo ten.
 * @param {HTMLInputElement} input
 */
function checkedCas(input) {
  const found = /^([1-9][0-9]{1,6})-([0-9]{2})-([0-9])$/.exec(written(input));
  const sum = [...(found ? found[1] + found[2] : "")]
    .reverse()
    .reduce((total, digit, place) => total + Number(digit) * (place + 1), 0);
  if (!found || sum % 10 !== Number(found[3]))
    throw refuse("This is no CAS number: its digits do not fit together. Copy it again.");
  return found[0];
}

/** @param {readonly string[] | undefined} list */
const lines = (list) => (list ?? []).join("\n");
/** @param {HTMLTextAreaElement} area */
const read = (area) =>
  area.value
    .split("\n")
    .map((line) => line.trim())
    .filter(Boolean);

/**
 * `there`: the card as it is by the time that this one is kept; what was not written in here stays as it is there.
 * @param {{key: string, card: Card | null, there?: () => Card | null}} asked
 * @returns {Promise<ShelfSaid[] | null>}
 */
export function askCard({ key, card, there = () => card }) {
  const name = text({ value: card?.name ?? "" });
  const inci = text({ value: card?.inci ?? "" });
  const cas = text({ value: card?.cas ?? "", placeholder: "144-55-8" });
  /** @param {readonly string[] | undefined} list */
  const area = (list) => h("textarea", { rows: 2 }, lines(list));
  const answers = area(card?.answers_to);
  const limits = area(card?.limits);
  const hazards = HAZARDS.map(([value, says]) => ({
    value,
    says,
    box: h("input", { type: "checkbox", checked: card?.hazards?.includes(value) }),
  }));
  const note = h("textarea", { rows: 3 }, card?.note ?? "");
  const density = text({ value: card?.density?.g_per_ml ?? "", inputmode: "decimal", placeholder: "0.92" });
  const source = text({ value: card?.density?.source ?? "", placeholder: "the supplier's sheet" });
  const rows = [
    field("Trade name", name),
    field("INCI name", inci),
    field("CAS number", cas),
    field("Recipes also call it, one a line", answers),
    field("The supplier's limits, one a line", limits),
    h(
      "fieldset",
      { class: "setting" },
      h("legend", { class: "caps" }, "Usual cautions"),
      hazards.map(({ says, box }) => h("label", { class: "choice" }, box, h("span", {}, says))),
    ),
    field("Hazard and other notes, from its safety sheet", note),
    h("div", { class: "two" }, field("Density, g/ml", density), field("Density from where", source)),
  ];
  return askForm(card ? card.name : "A card", "Keep the card", rows, () => {
    /** @type {{[P in keyof Kept]?: Kept[P]}} */
    const kept = { ...there() };
    /** @param {keyof Kept} part @param {unknown} value */
    const isMine = (part, value) => !sameData(value, card?.[part]);
    /**
     * An empty text or list is none.
     * @template {"name" | "inci" | "cas" | "answers_to" | "limits" | "hazards" | "note"} P
     * @param {P} part @param {NonNullable<Kept[P]>} value
     */
    const set = (part, value) => {
      if (!isMine(part, value.length ? value : undefined)) return;
      if (value.length) kept[part] = value;
      else delete kept[part];
    };
    set("name", needed(name, "Write its trade name."));
    set("inci", written(inci));
    set("cas", written(cas) && checkedCas(cas));
    set("answers_to", read(answers));
    set("limits", read(limits));
    const others = (card?.hazards ?? []).filter((each) => !HAZARDS.some(([value]) => value === each));
    set("hazards", [...hazards.filter(({ box }) => box.checked).map(({ value }) => value), ...others].sort());
    set("note", written(note));
    if (written(density)) readDensity(written(density)); // or it is refused, in words
    const dense = written(density)
      ? {
          ...card?.density,
          g_per_ml: plainNumber(written(density)),
          source: needed(source, "Say where the density is from."),
        }
      : undefined;
    if (isMine("density", dense)) kept.density = dense;
    if (!kept.density) delete kept.density;
    const { name: called = written(name) } = kept;
    return [{ kind: "described", body: { ingredient: key, card: { ...kept, name: called } } }];
  });
}

/** @param {{lot: string, name: string, measure: "mg" | "count"}} asked @returns {Promise<ShelfSaid[] | null>} */
export function askLoss({ lot, name, measure }) {
  const much = text({ placeholder: measure === "mg" ? "20 g" : "3 pieces" });
  const why = text({ placeholder: "spilt, gone off, given away" });
  return askForm(
    `${name}: write off`,
    "Write it off",
    [field("How much is gone", much), field("Why", why)],
    () => {
      const amount = readMuch(much);
      if (!(measure in amount))
        throw refuse(
          measure === "mg"
            ? "This lot is weighed: write a mass, such as 20 g."
            : "This lot is counted: write pieces, such as 3 pieces.",
        );
      return [
        {
          kind: "wrote_off",
          body: { lot, ...amount, why: needed(why, "Say why: the record asks a year later.") },
        },
      ];
    },
  );
}
