// Whether a file is built as a recipe is, so that the recipe page can show it: its amounts may be wrong, not its build.

/** @typedef {(value: unknown) => boolean} Fits */

const KINDS = ["weigh", "do", "melt", "split", "check", "pieces", "wait", "turn"];

/** @type {Fits} */
const text = (value) => typeof value === "string";
/** @type {Fits} */
const number = (value) => typeof value === "number";
/** @type {Fits} */
const flag = (value) => typeof value === "boolean";
/** @type {Fits} */
const kind = (value) => KINDS.includes(/** @type {string} */ (value));
/** @param {Fits} each @returns {Fits} */
const list = (each) => (value) => Array.isArray(value) && value.every(each);
/** @param {unknown} value @returns {value is {[field: string]: unknown}} */
const hasFields = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
/** @param {Fits} each @returns {Fits} */
const byId = (each) => (value) => hasFields(value) && Object.values(value).every(each);
/**
 * @param {{[field: string]: Fits}} must what has to be there @param {{[field: string]: Fits}} [may]
 * @returns {Fits}
 */
const fields =
  (must, may = {}) =>
  (value) =>
    hasFields(value) &&
    Object.entries(must).every(([field, fits]) => fits(value[field])) &&
    Object.entries(may).every(([field, fits]) => value[field] === undefined || fits(value[field]));
/** @param {string} names as "one|other" @param {Fits} fits */
const all = (names, fits) => Object.fromEntries(names.split("|").map((name) => [name, fits]));

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
    optional: flag,
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

/** @type {Fits} */
export const isWellBuilt = fields(
  { ingredients: byId(INGREDIENT), components: list(PART) },
  {
    ...all("title|summary|measures", text),
    ...all("stays_on|looks_like_food", flag),
    written_for: number,
    piece: fields({}, all("one|many", text)),
    assembly: fields(
      { takes: list(fields({ component: text }, { count: number })), steps: list(STEP) },
      { name: text, lines: list(LINE) },
    ),
  },
);
