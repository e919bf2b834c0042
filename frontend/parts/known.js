// What is known of an ingredient by its name: from the shelf's card, or from the table of substances, as the server
// tells it. Nothing that a maker wrote is overwritten unseen.
//
//   const known = knownOf(proposal, card)                  // its fields as a recipe writes them
//   knownRow({ called, known, mine, take, fields })        // what is said, and the touches that take it over

import { readAmount } from "../bench/amounts.js";
import { saysOf } from "../bench/errors.js";
import { cardFor, nameKey } from "../bench/shelf.js";
import { h, sameData } from "./dom.js";
import { field as formField } from "./form.js";
import { choicesOf } from "./recipe-fields.js";
import { ALL_HAZARDS, FORMS, INGREDIENT_KINDS } from "./recipe-forms.js";
import { point, say, sayAll } from "../words.js";
/** @import { Card, Proposal, Shelf, WrittenIngredient } from "../../bench/shapes/page" */
/** @import { Coded } from "../../types/recipe" */

/** What may be taken over, in the order in which it is said. */
export const KNOWN = /** @type {const} */ ([
  "kind",
  "form",
  "inci",
  "cas",
  "density",
  "hazards",
  "fragrance",
  "most_c",
  "active",
  "heat",
]);
/** @typedef {typeof KNOWN[number]} KnownField */
/** @typedef {Pick<Card, Extract<KnownField, keyof Card>>} Known */

/**
 * The shelf's card goes before the table: its maker wrote it.
 * @param {Proposal | null | undefined} proposal @param {Card | null | undefined} card @returns {Known}
 */
export const knownOf = (proposal, card) => picked({ ...proposal?.about, ...card });

/** @param {Partial<Card>} about @returns {Known} */
export const picked = (about) =>
  Object.fromEntries(KNOWN.flatMap((field) => (isThere(about[field]) ? [[field, about[field]]] : [])));

/** @param {unknown} value */
const isThere = (value) => value !== undefined && value !== "" && !(Array.isArray(value) && !value.length);

/** @param {Coded} coded @param {string} code */
const wordOf = (coded, code) => new Map(choicesOf(coded)).get(code) ?? code;
/** @param {string} decimal */
const shown = (decimal) => decimal.replace(".", point());

/** @param {Known} known @param {KnownField} field */
export function valueWords(known, field) {
  const { density, kind, form, hazards } = known;
  if (field === "density" && density)
    return say("page-known-density", { density: shown(density.g_per_ml), source: density.source });
  if (field === "kind" && kind) return wordOf(INGREDIENT_KINDS, kind);
  if (field === "form" && form) return wordOf(FORMS, form);
  if (field === "hazards" && hazards) return sayAll(hazards.map((each) => wordOf(ALL_HAZARDS, each)));
  const value = known[field];
  return typeof value === "string" ? shown(value) : "";
}

/** @param {KnownField} field */
const nameOf = (field) => say("page-known-field", { field });

/** What is known and not written yet, and what is written otherwise. @param {Known} known @param {Known} mine
 * @param {readonly KnownField[]} fields */
export function compared(known, mine, fields) {
  const there = fields.filter((field) => isThere(known[field]));
  return {
    fresh: there.filter((field) => !isThere(mine[field])),
    other: there.filter((field) => isThere(mine[field]) && !sameData(known[field], mine[field])),
  };
}

/**
 * What stands just as it is known: taken over, and not touched since. @param {Known} known @param {Known} mine
 * @param {readonly KnownField[]} fields
 */
export const takenOver = (known, mine, fields) =>
  fields.filter((field) => isThere(mine[field]) && sameData(known[field], mine[field]));

/** @param {readonly KnownField[]} fields */
export const fieldNames = (fields) => sayAll(fields.map(nameOf));

/**
 * @param {{proposal: Proposal | null, isOfCard: boolean, known: Known, mine: Known, fields: readonly KnownField[],
 *   take: (fields: readonly KnownField[]) => void}} given @returns {HTMLElement[]}
 */
export function knownRow({ proposal, isOfCard, known, mine, fields, take }) {
  const { fresh, other } = compared(known, mine, fields);
  if (!proposal && !isOfCard) return [];
  const says = [
    proposal ? say("page-known-taken-for", { name: proposal.called }) : "",
    isOfCard ? say("page-known-card") : "",
    proposal?.hazards.length
      ? say("page-known-class", { hazards: proposal.hazards.join(", "), source: proposal.hazards_by })
      : "",
  ].filter(Boolean);
  /** @param {readonly KnownField[]} those @param {string} label */
  const touch = (those, label) =>
    h("button", { type: "button", class: "outlined", onclick: () => take(those) }, label);
  const facts = fresh
    .filter((field) => valueWords(known, field))
    .map((field) =>
      h("li", {}, say("page-known-fact", { field: nameOf(field), value: valueWords(known, field) })),
    );
  const differing = other.map((field) =>
    h(
      "li",
      {},
      say("page-known-other", {
        field: nameOf(field),
        mine: valueWords(mine, field),
        known: valueWords(known, field),
      }),
    ),
  );
  return [
    h("p", {}, says.join(" ")),
    ...(fresh.length
      ? [
          h("ul", { class: "known-facts" }, facts),
          touch(fresh, say("page-known-take", { fields: fieldNames(fresh) })),
        ]
      : []),
    ...(other.length
      ? [
          h("p", {}, say("page-known-stays")),
          h("ul", { class: "known-facts" }, differing),
          touch(other, say("page-known-instead", { count: other.length })),
        ]
      : []),
  ];
}

// The cards of the shelf

/** @typedef {{key: string, card: Card}} CardThere */

/** The card that a name is of: its own, or one that answers to it. @param {Shelf} shelf @param {string} name
 * @returns {CardThere | null} */
export function cardOf(shelf, name) {
  const key = cardFor(shelf, name);
  const card = key === null ? null : shelf.ingredients[key].card;
  return key === null || card === null ? null : { key, card };
}

/**
 * What is known here of each name: what recipes say of it, the fuller before the bare, and over it the shelf's card.
 * @param {readonly WrittenIngredient[]} written @param {Shelf} shelf @returns {WrittenIngredient[]}
 */
export function knownHere(written, shelf) {
  /** @type {Map<string, WrittenIngredient>} */
  const known = new Map();
  for (const about of written) {
    const name = nameKey(about.name);
    const had = known.get(name);
    if (name && (!had || Object.keys(had).length === 1)) known.set(name, about);
  }
  for (const { card } of Object.values(shelf.ingredients))
    for (const name of card ? [card.name, ...(card.answers_to ?? [])] : []) {
      const { cas: _, ...about } = picked(card ?? {});
      known.set(nameKey(name), { ...known.get(nameKey(name)), ...about, name });
    }
  return [...known.values()];
}

// What is asked once

/** @typedef {"kind" | "density" | "inci"} AskedField */

/**
 * What neither the recipe nor the table nor the shelf says, and is needed: what it is; its density where an amount is
 * a volume; its INCI name where it is sold.
 * @param {{about: Known, known: Known, amount: string, measures: "us" | "imperial" | "metric" | null, isSold: boolean}}
 * given @returns {AskedField[]}
 */
export function wanting({ about, known, amount, measures, isSold }) {
  /** @param {AskedField} field */
  const isOpen = (field) => !isThere(about[field]) && !isThere(known[field]);
  return [
    ...(isOpen("kind") ? [/** @type {const} */ ("kind")] : []),
    ...(isOpen("density") && isVolume(amount, measures) ? [/** @type {const} */ ("density")] : []),
    ...(isOpen("inci") && isSold ? [/** @type {const} */ ("inci")] : []),
  ];
}

/** @param {string} amount @param {"us" | "imperial" | "metric" | null} measures */
function isVolume(amount, measures) {
  try {
    return readAmount(amount, measures).kind === "volume";
  } catch (error) {
    if (!saysOf(error)) throw error;
    return false; // it is said at the amount
  }
}

/**
 * The questions, and one touch that keeps the answers; what was left open is not in them.
 * @param {readonly AskedField[]} fields @param {(answers: Known) => void} keep @returns {HTMLElement[]}
 */
export function askedRow(fields, keep) {
  if (!fields.length) return [];
  const kind = h(
    "select",
    {},
    h("option", { value: "" }, "\u2013"),
    choicesOf(INGREDIENT_KINDS).map(([value, label]) => h("option", { value }, label)),
  );
  const [inci, density, source] = Array.from({ length: 3 }, () =>
    h("input", { type: "text", autocomplete: "off" }),
  );
  setDecimal(density);
  const rows = {
    kind: [formField(say("page-recipe-field-kind"), kind)],
    density: [
      formField(say("page-recipe-field-density"), density),
      formField(say("page-recipe-field-density-source"), source),
    ],
    inci: [formField(say("page-recipe-field-inci"), inci)],
  };
  const answered = () => {
    const chosen = INGREDIENT_KINDS.codes.find((each) => each === kind.value);
    const dense = density.value.trim().replace(",", ".");
    keep(
      picked(
        /** @type {Partial<Card>} */ ({
          kind: chosen,
          inci: inci.value.trim(),
          ...(dense && {
            density: { g_per_ml: dense, source: source.value.trim() || say("page-known-own") },
          }),
        }),
      ),
    );
  };
  return [
    h("p", {}, say("page-known-ask")),
    h(
      "div",
      { class: "known-asks" },
      fields.flatMap((each) => rows[each]),
    ),
    h("button", { type: "button", class: "outlined", onclick: answered }, say("page-known-keep")),
  ];
}

/** @param {HTMLInputElement} input */
const setDecimal = (input) => input.setAttribute("inputmode", "decimal");
