/**
 * What follows from what a product is for and where it is sold: laws and duties, and how each duty stands. The same
 * as bench/product/__init__.py; the recipe may be measured, or still as it is being written.
 */

import { say } from "../words.js";
/** @import { Duty, DutyMark, DutyStands, Law, LawStands } from "../../bench/shapes/page" */
/** @import { ProductStands, ProductUse, SoldIn } from "../../bench/shapes/page" */

/**
 * @typedef {{readonly use?: ProductUse, readonly sold_in?: readonly SoldIn[],
 *   readonly ingredients: {readonly [id: string]: {readonly kind?: string}},
 *   readonly components: readonly {readonly lines?: readonly {readonly ingredient: string}[]}[]}} OfAProduct
 */

/** As bench/product/table.json has them, with the date of each source's text: the server writes them in. */
/** @type {readonly (Law & {dated: string})[]} */
const LAWS = [];

/** @type {readonly (Duty & {dated: string})[]} */
const DUTIES = [];

/** @param {OfAProduct} recipe @returns {boolean} */
const isSoap = ({ ingredients, components }) =>
  components.some(({ lines = [] }) =>
    lines.some(({ ingredient }) => ingredients[ingredient]?.kind === "soap_base"),
  );

/** @param {readonly SoldIn[]} markets @param {readonly SoldIn[] | undefined} soldIn */
const among = (markets, soldIn = []) => markets.filter((market) => soldIn.includes(market));

/** @param {OfAProduct} recipe */
const lawsOf = (recipe) =>
  LAWS.filter(
    ({ uses, markets, soap }) =>
      recipe.use &&
      uses.includes(recipe.use) &&
      among(markets, recipe.sold_in).length > 0 &&
      (!soap || isSoap(recipe)),
  );

/** What was said last of each duty, by (at, id). @param {readonly DutyMark[]} marks */
export function holding(marks) {
  /** @type {Map<string, DutyMark>} */
  const last = new Map();
  for (const mark of marks) {
    const key = `${mark.about ?? ""} ${mark.duty}`;
    const had = last.get(key);
    if (!had || had.at < mark.at || (had.at === mark.at && had.id < mark.id)) last.set(key, mark);
  }
  return last;
}

/**
 * @param {OfAProduct} recipe @param {string} id @param {readonly DutyMark[]} marks @returns {ProductStands}
 */
export function stands(recipe, id, marks) {
  const { use = null, sold_in = null } = recipe;
  const held = holding(marks);
  const laws = lawsOf(recipe);
  /** @type {LawStands[]} */
  const told = laws.map(({ id: law, markets, source, dated }) => ({
    id: law,
    markets: among(markets, sold_in ?? []),
    says: say(`product-law-${law}`),
    source: say(`sources-law-${source.slice("law-".length)}`),
    dated,
  }));
  /** @type {DutyStands[]} */
  const duties = DUTIES.filter(
    ({ laws: of, markets }) =>
      laws.some((law) => of.includes(law.id)) && among(markets, sold_in ?? []).length > 0,
  ).map(({ id: duty, of, markets, since = "", small_free: isFree, source, dated }) => {
    const mark = held.get(`${of === "studio" ? "" : id} ${duty}`);
    return {
      id: duty,
      of,
      markets: among(markets, sold_in ?? []),
      says: say(`product-duty-${duty}`),
      state: mark?.state ?? "open",
      day: mark?.day ?? null,
      note: mark?.note ?? "",
      more: isFree ? say("product-small-free") : "",
      since,
      source: say(`sources-law-${source.slice("law-".length)}`),
      dated,
    };
  });
  return {
    use,
    sold_in,
    laws: told,
    duties,
    open: duties.filter(({ state }) => state === "open").length,
  };
}
