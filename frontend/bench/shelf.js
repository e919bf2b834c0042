/**
 * The shelf: what is in the house, as a second journal of the same make as a run's.
 *
 *   foldShelf(entries)  ->  {ingredients: {id: {card, notes}}, lots: {id: lot}, unread: [entry ids]}
 *
 * The same fold as bench/shelf.py, which says what a card and a lot hold. It never throws and reads
 * no clock. Screens that need it import it; the bench does not.
 */

import { fields, FITS, inOrder, isObject, lessUndone, understood } from "./entries.js";
import { SHELF_KINDS } from "./kinds.js";
/** @import { Card, Entry, LotSaid, Shelf, ShelfPaper, ShelfEntry, ShelfLot } from "../../bench/shapes/page" */
/** @import { PaperDue, ShelfIngredient } from "../../bench/shapes/page" */
/** @import { Draft, ShelfEntryOf } from "../../types/bench" */
/** @import { Kinds } from "./entries.js" */

/** What a lot says of itself, and of that what it need not say. */
const SAID = /** @type {const} */ ([
  "ingredient",
  "number",
  "supplier",
  "code",
  "received_on",
  "best_before",
  "price",
  "mg",
  "count",
]);
/** As PAPER_AHEAD_DAYS of bench/shelf.py. */
const PAPER_AHEAD_MS = 30 * 86_400_000;
const MAY_LACK = ["best_before", "code", "price", "supplier"];
const DAY = /^((?:19|20)[0-9]{2})-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$/;
const DECIMAL = /^[0-9]{1,12}(\.[0-9]{1,6})?$/;
const CURRENCY = /^[A-Z]{3}$/;

/** @param {unknown} value */
const isDecimal = (value) => typeof value === "string" && DECIMAL.test(value);

/** A day of the calendar, "2027-03-31", from 1900 to 2099. @param {unknown} value */
export function isDay(value) {
  const found = typeof value === "string" && DAY.exec(value);
  if (!found) return false;
  const [, year, month, day] = found.map(Number);
  return day <= new Date(Date.UTC(year, month, 0)).getUTCDate();
}

/** @param {unknown} value */
function isPrice(value) {
  if (!isObject(value) || !isDecimal(value.amount)) return false;
  if (value.delivery !== undefined && !isDecimal(value.delivery)) return false;
  if (typeof value.currency !== "string" || !CURRENCY.test(value.currency)) return false;
  const { tax } = value;
  return tax === undefined || (isObject(tax) && isDecimal(tax.percent) && typeof tax.included === "boolean");
}

/** @param {unknown} value */
function isCard(value) {
  if (!isObject(value) || !FITS.text(value.name)) return false;
  return [...String(value.name)].length <= 200;
}

const SHELF_FITS = { ...FITS, day: isDay, price: isPrice, card: isCard };

/** @type {Kinds} */
const KINDS = new Map(
  Object.entries(SHELF_KINDS).map(([kind, row]) => [kind, fields(row.fields, SHELF_FITS)]),
);

/** Whether an entry is of pieces or of buying, which others read. @param {string} kind */
const isBeside = (kind) =>
  KINDS.has(kind) && SHELF_KINDS[kind].traits.some((trait) => trait.startsWith("of_"));

/** What the shelf's entries say together. @param {readonly Entry[]} entries @returns {Shelf} */
export function foldShelf(entries) {
  /** @type {Map<string, Draft<ShelfIngredient>>} */
  const ingredients = new Map();
  /** @type {Map<string, Draft<ShelfLot>>} */
  const lots = new Map();
  /** @type {string[]} */
  const unread = [];
  /** @type {ShelfEntry[]} */
  const later = [];
  for (const each of lessUndone(inOrder(entries))) {
    if (isBeside(each.kind)) continue;
    const entry = read(each);
    if (!entry) unread.push(each.id);
    else if (entry.kind === "described")
      known(ingredients, entry.body.ingredient).card = cardOf(entry.body.card);
    else if (entry.kind !== "received") later.push(entry);
    else if (receive(lots, entry)) known(ingredients, entry.body.ingredient);
    else unread.push(entry.id);
  }
  /** @type {Set<string>} */
  const counted = new Set(); // lots of which somebody said what is really there
  for (const entry of later) if (!takes(ingredients, lots, entry, counted)) unread.push(entry.id);
  return {
    ingredients: Object.fromEntries(ingredients),
    lots: Object.fromEntries(lots),
    unread: unread.sort(),
  };
}

/**
 * @typedef {Map<string, Draft<ShelfIngredient>>} Ingredients
 * @typedef {Map<string, Draft<ShelfLot>>} Lots
 * @typedef {{mg: number, count: number, at: number}} Use what a run used of a lot
 */

/** What a fold can read, by its kind; null of what it cannot. @param {Entry} entry */
const read = (entry) =>
  understood(entry, KINDS) ? /** @type {ShelfEntry} */ (/** @type {unknown} */ (entry)) : null;

/** A card as it was written: it has a name, and all else is as its maker had it. @param {unknown} card */
const cardOf = (card) => /** @type {Draft<Card>} */ (card);

/** @param {Ingredients} ingredients @param {string} key @returns {Draft<ShelfIngredient>} */
function known(ingredients, key) {
  const about = ingredients.get(key) ?? { card: null, notes: [], papers: [] };
  ingredients.set(key, about);
  return about;
}

/** @param {Lots} lots @param {ShelfEntryOf<"received">} entry */
function receive(lots, { at, body }) {
  const { lot, ingredient, number, received_on, mg = null, count = null } = body;
  if (lots.has(lot) || (mg === null) === (count === null)) return false;
  const { supplier = null, best_before = null, price = null, code = null, run = null } = body;
  lots.set(lot, {
    ingredient,
    number,
    received_on,
    supplier,
    best_before,
    price,
    code,
    run,
    mg,
    count,
    held: mg ?? count ?? 0,
    held_at: at,
    wrote_off: [],
    mended: [],
    notes: [],
    judgements: [],
    papers: [],
  });
  return true;
}

/**
 * How much an entry says of a lot, in the lot's own measure; undefined when it says it in the other.
 * @param {Draft<ShelfLot>} lot @param {{mg?: number, count?: number}} body
 */
const muchOf = (lot, body) => (lot.count === null ? body.mg : body.count);

/**
 * What was received changes what is there, until somebody counts it.
 * @param {Ingredients} ingredients @param {Lots} lots @param {ShelfEntryOf<"mended">} entry
 * @param {Set<string>} counted
 */
function mend(ingredients, lots, { at, device, body }, counted) {
  const lot = lots.get(body.lot);
  if (!lot || (lot.count === null ? body.count : body.mg) !== undefined) return false;
  const before = lot.mg ?? lot.count ?? 0;
  const none = (body.without ?? []).filter((field) => MAY_LACK.includes(field)).map((field) => [field, null]);
  const said = { ...body, ...Object.fromEntries(none) };
  /** @type {LotSaid} */
  const was = Object.fromEntries(
    SAID.flatMap((field) => (said[field] === undefined ? [] : [[field, lot[field]]])),
  );
  for (const field of SAID) if (said[field] !== undefined) Object.assign(lot, { [field]: said[field] });
  if (!counted.has(body.lot)) lot.held += (lot.mg ?? lot.count ?? 0) - before;
  lot.mended.push({ at, device, was });
  known(ingredients, lot.ingredient);
  return true;
}

/**
 * Takes in what is said of what is here; false when it makes no sense.
 * @param {Ingredients} ingredients @param {Lots} lots @param {ShelfEntry} entry @param {Set<string>} counted
 */
function takes(ingredients, lots, entry, counted) {
  const { at, device, kind } = entry;
  if (kind === "noted") {
    const { lot, ingredient = "", text } = entry.body;
    const about = lot === undefined ? ingredients.get(ingredient) : lots.get(lot);
    about?.notes.push({ at, device, text });
    return about !== undefined;
  }
  if (kind === "papered") {
    const { lot, ingredient = "", paper, reference } = entry.body;
    const { dated = null, expires = null, amendment = null, category = null } = entry.body;
    const about = lot === undefined ? ingredients.get(ingredient) : lots.get(lot);
    const { picture, media } = entry.body;
    const file = picture && media ? { picture, media } : {};
    about?.papers.push({ at, device, paper, reference, dated, expires, amendment, category, ...file });
    return about !== undefined;
  }
  if (kind === "judged") {
    const { verdict, name = null, why = null } = entry.body;
    const judged = lots.get(entry.body.lot);
    judged?.judgements.push({ at, device, verdict, name, why });
    return judged !== undefined;
  }
  if (kind === "mended") return mend(ingredients, lots, entry, counted);
  if (kind !== "corrected" && kind !== "wrote_off") return false; // an undo of what is not here, or came after it
  const lot = lots.get(entry.body.lot);
  const much = lot && muchOf(lot, entry.body);
  if (!lot || much === undefined) return false;
  if (entry.kind === "corrected") {
    lot.held = much;
    lot.held_at = at;
    counted.add(entry.body.lot);
  } else {
    lot.held -= much;
    lot.wrote_off.push({ at, much, why: entry.body.why });
  }
  return true;
}

/**
 * What a lot has left, in mg or pieces, after the runs' uses; see bench/shelf.py.
 * @param {ShelfLot} lot @param {readonly Use[]} uses
 */
export function leftOf(lot, uses) {
  const measure = lot.count === null ? "mg" : "count";
  return uses.reduce((rest, use) => (use.at > lot.held_at ? rest - use[measure] : rest), lot.held);
}

/** How a lot was judged last; null where nobody judged it. @param {ShelfLot} lot */
export const verdictOf = ({ judgements }) => judgements.at(-1)?.verdict ?? null;

/** Whether a lot is held or rejected, so that nobody takes of it unasked. @param {ShelfLot} lot */
export const isBarred = (lot) => ["held", "rejected"].includes(verdictOf(lot) ?? "");

/**
 * Of each kind the newest paper, where it is past its date or soon will be: on the day itself it is not.
 * @param {readonly ShelfPaper[]} papers @param {string} on @returns {PaperDue[]}
 */
export function papersDue(papers, on) {
  const until = new Date(Date.parse(on) + PAPER_AHEAD_MS).toISOString().slice(0, 10);
  const newest = new Map(papers.map((each) => [each.paper, each.expires]));
  return [...newest]
    .sort()
    .flatMap(([paper, expires]) =>
      expires !== null && expires <= until ? [{ paper, expires, past: expires < on }] : [],
    );
}

/**
 * The papers of a lot and of its ingredient, as they were told.
 * @param {Pick<Shelf, "ingredients">} shelf @param {ShelfLot} lot
 */
export function papersAbout({ ingredients }, { ingredient, papers }) {
  const own = Object.hasOwn(ingredients, ingredient) ? ingredients[ingredient].papers : [];
  return [...own, ...papers].sort((one, other) => one.at - other.at);
}

/** A name as it is compared: by its letters and digits; see bench/shelf.py. @param {string} name */
export function nameKey(name) {
  const plain = name
    .normalize("NFKC")
    .toLowerCase()
    .replace(/[ \t\r\n]+/g, " ")
    .replace(/^ | $/g, "");
  return plain.match(/[\p{L}\p{N}]+/gu)?.join(" ") ?? plain;
}

// By the shelf that they are of: each name that a card answers to, with the card's id.
const NAMES = /** @type {WeakMap<Shelf, Map<string, string>>} */ (new WeakMap());

/** Of several cards one whose own name it is, then the least id; as bench/book.py has it. @param {Shelf} shelf */
function namesOf(shelf) {
  const had = NAMES.get(shelf);
  if (had) return had;
  /** @type {Map<string, string>} */
  const own = new Map();
  /** @type {[string, string][]} */
  const others = [];
  for (const key of Object.keys(shelf.ingredients).sort()) {
    const { card } = shelf.ingredients[key];
    if (card === null) continue;
    if (!own.has(nameKey(card.name))) own.set(nameKey(card.name), key);
    const called = /** @type {unknown} */ (card.answers_to);
    if (Array.isArray(called))
      for (const name of called) if (typeof name === "string") others.push([nameKey(name), key]);
  }
  for (const [name, key] of others) if (!own.has(name)) own.set(name, key);
  NAMES.set(shelf, own);
  return own;
}

/**
 * The id of the shelf's card that a name means; null when none is called so.
 * @param {Shelf} shelf @param {string} name
 */
export const cardFor = (shelf, name) => namesOf(shelf).get(nameKey(name)) ?? null;
