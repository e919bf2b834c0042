/**
 * Text as it is searched, and searched for: capitals, accents and ways of writing a letter do not matter.
 * As bench/folding.py does it; JavaScript has no case folding of its own, so two letters are named.
 * @param {string} text
 */
export const folded = (text) =>
  text
    .normalize("NFKD")
    .replace(/\p{Mn}/gu, "")
    .toLowerCase()
    .replaceAll("\u00df", "ss")
    .replaceAll("\u03c2", "\u03c3")
    .split(/[\s\u0085]+/)
    .filter(Boolean)
    .join(" ");

/** @param {string} text */
export const wordsOf = (text) => folded(text).split(" ").filter(Boolean);

/** @param {string} text folded @param {readonly string[]} words */
export const hasWords = (text, words) => words.every((word) => text.includes(word));
