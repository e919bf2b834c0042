/**
 * What lies on the disk as text, since a browser copies a text many times faster than what it says (IndexedDB, other
 * tabs): a recipe, in memory too, which is read when it is first asked for, since a phone keeps hundreds and opens a
 * few; and a journal that came whole, as one row.
 */

/** @import { JournalLain, KeptEntry, RecipeLain, RecipeRow } from "../../types/keep" */

/** A journal as one row among entries. @param {string} run @param {KeptEntry[]} journal @returns {JournalLain} */
export const whole = (run, journal) => ({ id: `${run}/whole`, run, text: JSON.stringify(journal) });

/**
 * The entries of rows; one by itself is later than the same in a whole journal.
 * @param {(KeptEntry | JournalLain)[]} rows
 */
export function entriesOf(rows) {
  /** @type {KeptEntry[][]} */
  const journals = rows.flatMap((row) => ("text" in row ? [JSON.parse(row.text)] : []));
  return [...journals.flat(), ...rows.flatMap((row) => ("text" in row ? [] : [row]))];
}

/**
 * A page of recipes as the server sends it, each with its text, which is not read here.
 *
 * What a recipe says stands on a line of its own; a proxy that writes JSON in another way costs the time of reading.
 * @param {string} answer JSON @returns {unknown} @throws {SyntaxError}
 */
export function pageOf(answer) {
  const [head, ...lines] = answer.split("\n");
  const isByLines = head.endsWith('"said":[');
  const { said, ...page } = JSON.parse(isByLines ? `${head}]}` : answer);
  /** @type {string[]} */
  const texts = isByLines
    ? lines.slice(0, -1).map((line) => (line.endsWith(",") ? line.slice(0, -1) : line))
    : said?.map((/** @type {unknown} */ each) => JSON.stringify(each));
  const of = (/** @type {object} */ row, /** @type {number} */ place) => ({ ...row, text: texts[place] });
  return texts ? { ...page, recipes: page.recipes.map(of) } : page;
}

/** As it lies. @param {RecipeRow | RecipeLain} row @returns {RecipeLain} */
export function laid(row) {
  if ("text" in row) return row;
  const { document, measured, ...head } = row;
  return { ...head, text: JSON.stringify({ document, measured }) };
}

/** As it is asked; an earlier page left it read. @param {RecipeRow | RecipeLain} row @returns {RecipeRow} */
export function opened(row) {
  if (!("text" in row)) return row;
  const { text, ...head } = row;
  /** @type {Pick<RecipeRow, "document" | "measured"> | undefined} */
  let read;
  const said = () => (read ??= /** @type {Pick<RecipeRow, "document" | "measured">} */ (JSON.parse(text)));
  return {
    ...head,
    get document() {
      return said().document;
    },
    get measured() {
      return said().measured;
    },
  };
}
