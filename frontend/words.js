/**
 * Words as data: what people read stands in one catalogue a language, and code gives a key and its arguments. The
 * same keys and the same rules as bench/words, whose files they are.
 *
 * The server writes TABLE in as it sends this file, with the messages that the page's modules name
 * (api/page_words.py): one language, the one that the maker chose. A pattern is text, or a list of parts; a part is
 * text, [argument], or [argument, {variant: pattern}, default].
 */

/** @import { Pattern, Choice, Table, Values } from "../types/words" */

/** @type {Table} */
const TABLE = { language: "en", point: ".", languages: {}, messages: {} };

const THIN_SPACE = "\u2009";
const GROUPED_FROM = 10_000; // four figures are read at one glance, and are what a scale shows

let table = TABLE;
let plurals = new Intl.PluralRules(table.language);

/** Say everything by another table from now on. @param {Table} other */
export function speak(other) {
  table = other;
  plurals = new Intl.PluralRules(other.language);
}

/** Messages that come later, with the modules that name them. @param {Table["messages"]} messages */
export function learn(messages) {
  Object.assign(table.messages, messages);
}

/**
 * A message of the catalogue, with its arguments in their places. A mass, a span or a share comes in as text, a
 * count as a number.
 * @param {string} key @param {Values} [values]
 */
export function say(key, values = {}) {
  const pattern = table.messages[key];
  if (pattern === undefined) throw new Error(`words.js say: there is no message ${key}`);
  return put(pattern, values);
}

/** Names put together in one sentence: "a, b and c". @param {readonly string[]} names */
export function sayAll(names) {
  const [first = "", ...others] = names;
  return others.reduce(
    (text, next, place) =>
      place < others.length - 1
        ? say("list-more", { names: text, next })
        : say("list-and", { names: text, last: next }),
    first,
  );
}

/** The tag of the language that is spoken: "en", "de". */
export const spoken = () => table.language;

/** The languages that there are, by tag, each by its own name. */
export const languages = () => table.languages;

/**
 * The language that is spoken, with the region that this phone is set to: for dates and clocks.
 * A phone that asks for no region of it gets the first that stands there.
 */
export function locale() {
  const [plain, ...regional] = [table.language, ...navigator.languages];
  return regional.find((tag) => tag.split("-")[0] === plain) ?? { en: "en-GB" }[plain] ?? plain;
}

/** The decimal sign of the language that is spoken. */
export const point = () => table.point;

/** @typedef {{readonly mass: "g" | "oz", readonly warmth: "c" | "f"}} Units */

/** @type {Units} */
let asked = { mass: "g", warmth: "c" };

/** Word masses and temperatures in these units from now on (what is no reading). @param {Units} units */
export function measure(units) {
  asked = units;
}

/** The units that are asked for: of the reader's choice, as the language is. See bench/words/units.py. */
export const units = () => asked;

/** @param {Pattern} pattern @param {Values} values @returns {string} */
function put(pattern, values) {
  if (typeof pattern === "string") return pattern;
  return pattern.map((part) => (typeof part === "string" ? part : placed(part, values))).join("");
}

/** @param {[string] | Choice} part @param {Values} values */
function placed([name, variants, otherwise = ""], values) {
  const value = name === "degrees" ? asked.warmth : values[name]; // given to every message
  if (value === undefined) throw new Error(`words.js say: ${name} is missing`);
  if (variants === undefined) return shown(value);
  const named = typeof value === "number" ? plurals.select(value) : otherwise;
  return put(variants[String(value)] ?? variants[named] ?? variants[otherwise], values);
}

/** Text as it is, a whole number with its thousands apart where it is long. @param {string | number} value */
export function shown(value) {
  if (typeof value === "string" || Math.abs(value) < GROUPED_FROM) return String(value);
  return String(value).replace(/\B(?=(\d{3})+$)/g, THIN_SPACE);
}
