/**
 * The shelf: what is in the house, as a second journal of the same make as a run's.
 *
 *   foldShelf(entries)  ->  {ingredients: {id: {card, notes}}, lots: {id: lot}, unread: [entry ids]}
 *
 * The same fold as bench/shelf.py, which says what a card and a lot hold. It never throws and reads
 * no clock. Screens that need it import it; the bench does not.
 */

import { fields, FITS, inOrder, isObject, lessUndone, understood } from "./entries.js";

const DAY = /^((?:19|20)[0-9]{2})-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$/;
const DECIMAL = /^[0-9]{1,12}(\.[0-9]{1,6})?$/;
const CURRENCY = /^[A-Z]{3}$/;

const isDecimal = (value) => typeof value === "string" && DECIMAL.test(value);

/** A day of the calendar, "2027-03-31", from 1900 to 2099. */
export function isDay(value) {
  const found = typeof value === "string" && DAY.exec(value);
  if (!found) return false;
  const [, year, month, day] = found.map(Number);
  return day <= new Date(Date.UTC(year, month, 0)).getUTCDate();
}

function isPrice(value) {
  if (!isObject(value) || !isDecimal(value.amount)) return false;
  if (typeof value.currency !== "string" || !CURRENCY.test(value.currency)) return false;
  const { tax } = value;
  return tax === undefined || (isObject(tax) && isDecimal(tax.percent) && typeof tax.included === "boolean");
}

function isCard(value) {
  if (!isObject(value) || !FITS.text(value.name)) return false;
  return [...value.name].length <= 200;
}

const SHELF_FITS = { ...FITS, day: isDay, price: isPrice, card: isCard };

const KINDS = new Map(
  Object.entries({
    described: { ingredient: "key", card: "card" },
    received: {
      lot: "key",
      ingredient: "key",
      "supplier?": "text",
      number: "text",
      "mg?": "mass",
      "count?": "count",
      received_on: "day",
      "best_before?": "day",
      "price?": "price",
      "code?": "text",
    },
    corrected: { lot: "key", "mg?": "mass", "count?": "count" },
    wrote_off: { lot: "key", "mg?": "mass", "count?": "count", why: "text" },
    noted: { text: "text", "lot?": "key", "ingredient?": "key" },
    undone: { entry: "id" },
  }).map(([kind, written]) => [kind, fields(written, SHELF_FITS)]),
);

/** What the shelf's entries say together. */
export function foldShelf(entries) {
  const ingredients = new Map();
  const lots = new Map();
  const unread = [];
  const later = [];
  for (const entry of lessUndone(inOrder(entries))) {
    const { kind, body } = entry;
    if (!understood(entry, KINDS)) unread.push(entry.id);
    else if (kind === "described") known(ingredients, body.ingredient).card = body.card;
    else if (kind !== "received") later.push(entry);
    else if (receive(lots, entry)) known(ingredients, body.ingredient);
    else unread.push(entry.id);
  }
  for (const entry of later) if (!TAKES[entry.kind](ingredients, lots, entry)) unread.push(entry.id);
  return {
    ingredients: Object.fromEntries(ingredients),
    lots: Object.fromEntries(lots),
    unread: unread.sort(),
  };
}

function known(ingredients, key) {
  if (!ingredients.has(key)) ingredients.set(key, { card: null, notes: [] });
  return ingredients.get(key);
}

function receive(lots, { at, body }) {
  const { lot, ingredient, number, received_on, mg = null, count = null } = body;
  if (lots.has(lot) || (mg === null) === (count === null)) return false;
  const { supplier = null, best_before = null, price = null, code = null } = body;
  lots.set(lot, {
    ingredient,
    number,
    received_on,
    supplier,
    best_before,
    price,
    code,
    mg,
    count,
    held: mg ?? count,
    held_at: at,
    wrote_off: [],
    notes: [],
  });
  return true;
}

/** How much an entry says of a lot, in the lot's own measure; undefined when it says it in the other. */
const muchOf = (lot, body) => (lot?.count === null ? body.mg : lot && body.count);

const TAKES = {
  corrected(_ingredients, lots, { at, body }) {
    const lot = lots.get(body.lot);
    const much = muchOf(lot, body);
    if (much === undefined) return false;
    lot.held = much;
    lot.held_at = at;
    return true;
  },

  wrote_off(_ingredients, lots, { at, body }) {
    const lot = lots.get(body.lot);
    const much = muchOf(lot, body);
    if (much === undefined) return false;
    lot.held -= much;
    lot.wrote_off.push({ at, much, why: body.why });
    return true;
  },

  noted(ingredients, lots, { at, device, body }) {
    const about = body.lot === undefined ? ingredients.get(body.ingredient) : lots.get(body.lot);
    about?.notes.push({ at, device, text: body.text });
    return about !== undefined;
  },

  undone: () => false, // what it takes back is not here, or came after it
};

/** What a lot has left, in mg or pieces, after the runs' uses [{mg, count, at}]; see bench/shelf.py. */
export function leftOf(lot, uses) {
  const measure = lot.count === null ? "mg" : "count";
  return uses.reduce((rest, use) => (use.at > lot.held_at ? rest - use[measure] : rest), lot.held);
}

/** A name as it is compared: one width and case, single spaces. */
export function plain(name) {
  return name
    .normalize("NFKC")
    .toLowerCase()
    .replace(/[ \t\r\n]+/g, " ")
    .replace(/^ | $/g, "");
}

/** The id of the shelf's ingredient that answers to a recipe ingredient's name; null when none does. */
export function cardFor(shelf, name) {
  const wanted = plain(name);
  const answers = (each) => typeof each === "string" && plain(each) === wanted;
  const own = [];
  const others = [];
  for (const [key, { card }] of Object.entries(shelf.ingredients)) {
    if (card === null) continue;
    if (answers(card.name)) own.push(key);
    else if (Array.isArray(card.answers_to) && card.answers_to.some(answers)) others.push(key);
  }
  return own.sort()[0] ?? others.sort()[0] ?? null;
}
