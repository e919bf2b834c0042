/**
 * A recipe lies on the disk, and in memory, as text, and is read when it is first asked for. A phone keeps hundreds and
 * opens a few; and a browser copies a text many times faster than what it says (IndexedDB, other tabs).
 */

/** @import { RecipeLain, RecipeRow } from "../../types/keep" */

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
