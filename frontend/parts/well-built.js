// A file as a recipe is built, so that the recipe page can show it and its maker mend it there. What is right stays as
// it is; what stands where a text should is kept as text, to be seen and written anew. Its amounts may be wrong yet.

import { addComponent, blankRecipe } from "./recipe-edits.js";
/** @import { WrittenRecipe } from "../../bench/shapes/page" */

/**
 * The value as it may stand there; undefined where nothing of it can, unless something must.
 * @typedef {(value: unknown, must?: boolean) => unknown} Built
 */

/** What a thing is called, where it stands as a mere text. */
const NAMED = ["title", "name", "ingredient", "component"];

const isThere = (/** @type {unknown} */ value) => value !== undefined && value !== null;
const asText = (/** @type {unknown} */ value) => (typeof value === "string" ? value : JSON.stringify(value));

/** @type {Built} */
const text = (value, must) => (isThere(value) ? asText(value) : must ? "" : undefined);
/** @type {Built} */
const number = (value) => {
  const read = typeof value === "string" && value.trim() ? Number(value) : value;
  return typeof read === "number" && Number.isFinite(read) ? read : undefined;
};
/** @type {Built} */
const flag = (value) => (typeof value === "boolean" ? value : undefined);
/** One that this version does not know stays, and is said to be a fault. @type {Built} */
const kind = (value) => text(value, true) || "do";
/** @param {Built} each @returns {Built} */
const list = (each) => (value, must) =>
  isThere(value)
    ? (Array.isArray(value) ? value : [value]).map((one) => each(one)).filter(isThere)
    : must
      ? []
      : undefined;
/** @param {unknown} value @returns {value is {[field: string]: unknown}} */
const hasFields = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
/** @param {Built} each @returns {Built} */
const byId = (each) => (value) =>
  Object.fromEntries(Object.entries(hasFields(value) ? value : {}).map(([id, one]) => [id, each(one ?? {})]));
/**
 * @param {{[field: string]: Built}} must what has to be there @param {{[field: string]: Built}} [may]
 * @returns {Built}
 */
const fields =
  (must, may = {}) =>
  (value) => {
    if (!isThere(value)) return undefined;
    const name = NAMED.find((field) => field in must);
    if (!hasFields(value) && !name) return undefined;
    const said = hasFields(value) ? value : { [name ?? ""]: asText(value) };
    const built = { ...said };
    for (const [field, build] of Object.entries({ ...may, ...must })) {
      const one = build(said[field], field in must);
      if (one === undefined) delete built[field];
      else built[field] = one;
    }
    return built;
  };
/** @param {string} names as "one|other" @param {Built} build */
const all = (names, build) => Object.fromEntries(names.split("|").map((name) => [name, build]));

const texts = list(text);
const STEP = fields(
  { id: text, kind, title: text },
  {
    ...all("says|reason|does|caution|hands|into|from|about|heater|burst|last_burst|rest|from_c|to_c", text),
    ...all("look_for|ask|yes|again|verb|word|earliest|usual|latest|test|stake|rescue|every|during", text),
    ...all("after|hazards|tools|lines|of|tips", texts),
    ...all("optional|one_by_one|partial", flag),
    ...all("not_yet|too_far", fields({}, all("do|wait", text))),
    window: fields({}, all("from|latest|stake|rescue", text)),
    ways: list(fields({ id: text, name: text }, { says: text, hazards: texts })),
    portions: list(fields({ id: text, name: text }, { share: number, mass: text })),
  },
);
const LINE = fields(
  { id: text, ingredient: text, amount: text },
  {
    ...all("tolerance|note", text),
    ...all("optional|second_look", flag),
    substitutes: list(fields({ ingredient: text }, { ...all("amount|says", text), changes_method: flag })),
  },
);
const INGREDIENT = fields(
  { name: text },
  {
    ...all("note|inci|kind|form|most_c|active", text),
    density: fields({}, all("g_per_ml|tapped_g_per_ml|source", text)),
    fragrance: fields(
      {},
      { ...all("limit|category", text), allergens: list(fields({}, all("name|share", text))) },
    ),
    heat: fields(
      {},
      {
        ...all("melts_c|source", text),
        ...all("solid_j_per_kg_k|liquid_j_per_kg_k|latent_j_per_kg", number),
      },
    ),
    hazards: texts,
  },
);
const PART = fields(
  { id: text, name: text, steps: list(STEP) },
  {
    ...all("piece|stays_behind|loss|part|vessel", text),
    spares: number,
    mould: fields({}, { shape: text, held: flag }),
    lines: list(LINE),
  },
);

const RECIPE = {
  ...all("title|summary|measures", text),
  ...all("stays_on|looks_like_food", flag),
  written_for: number,
  piece: fields({}, all("one|many", text)),
  assembly: fields(
    { takes: list(fields({ component: text }, { count: number })), steps: list(STEP) },
    { name: text, lines: list(LINE) },
  ),
};
const build = fields({ ingredients: byId(INGREDIENT), components: list(PART) }, RECIPE);

/**
 * Of a file that is no recipe, what is named as in one; all else goes into the summary, so that none of it is lost.
 * @param {unknown} file @param {string} format
 */
function asRecipe(file, format) {
  if (!hasFields(file))
    return { title: asText(file).trim().split("\n")[0].slice(0, 80), summary: asText(file) };
  if (file.format === format) return file;
  const isOurs = (/** @type {string} */ field) =>
    field in RECIPE || ["ingredients", "components"].includes(field);
  const parts = Object.entries(file);
  const rest = Object.fromEntries(parts.filter(([field]) => !isOurs(field)));
  const summary = [file.summary, rest].filter(isThere).map(asText).join("\n");
  return { ...Object.fromEntries(parts.filter(([field]) => isOurs(field))), summary };
}

/** @param {unknown} file what was picked, whatever it is @returns {WrittenRecipe} */
export function wellBuilt(file) {
  const blank = blankRecipe();
  const built = /** @type {WrittenRecipe} */ (
    build({ ...asRecipe(file, blank.format), format: blank.format })
  );
  let number = 0;
  const used = new Set(JSON.stringify(built).match(/"x\d+"/g));
  const fresh = () => {
    do number += 1;
    while (used.has(`"x${number}"`));
    return `"id":"x${number}"`;
  };
  const named = JSON.parse(JSON.stringify(built).replace(/"id":""/g, fresh));
  const whole = { title: blank.title, written_for: blank.written_for, ...named };
  return whole.components.length ? whole : addComponent(whole);
}
