// Two edits of one recipe put together, over the version that both began from: what only one side
// changed is taken from that side, what both changed is asked row by row. Pure.
//
//   const { document, rows } = mergeRecipes(was, mine, theirs, new Map([["written_for", "theirs"]]));
// rows // [{ at, where: "Fizz, Citric acid: Amount", was, mine, theirs, from: "mine" | "theirs" | "both" | "asked" }]
//
// Answers are kept by a row's `at`; what is asked and not answered yet stands as mine. Things are
// matched by their ids, never by their place in a list. was: null when it is not known any more.

import { canonical } from "../bench/index.js";
import { last } from "../bench/lists.js";
import { say } from "../words.js";
import { join } from "./recipe-fields.js";
import { partsOf } from "./recipe-forms.js";
import { choiceWords, fieldWords, LISTS } from "./recipe-labels.js";
/** @import { WrittenRecipe } from "../../bench/shapes/page" */

/**
 * @typedef {{readonly [key: string]: unknown}} Thing
 * @typedef {Map<string, Thing>} Things a list, by what its things are told apart by
 * @typedef {"mine" | "theirs" | "both" | "asked"} From
 * @typedef {{at: string, words: string[], table: string, path: string, part: string, isList?: boolean,
 *   isOrder?: boolean}} Spot
 * @typedef {{at: string, where: string, was: string, mine: string, theirs: string, from: From}} MergeRow
 * @typedef {Map<string, string>} Names
 */

/** @param {unknown} one @param {unknown} other */
const isSame = (one, other) => canonical([one ?? null]) === canonical([other ?? null]);
/** @param {unknown} value @returns {value is Thing} */
const isThing = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
/** @param {unknown} value @returns {value is string[]} */
const isWords = (value) => Array.isArray(value) && value.every((each) => typeof each === "string");

/**
 * A list whose things can be told apart, as a map of them; else null.
 * @param {unknown} list @returns {Things | null}
 */
function byKey(list) {
  if (!Array.isArray(list)) return null;
  /** @type {Things} */
  const map = new Map();
  for (const thing of list) {
    if (!isThing(thing)) return null;
    const key = thing.id ?? thing.component ?? thing.ingredient ?? thing.name;
    if (typeof key === "string") map.set(key, thing);
  }
  return map.size === list.length ? map : null;
}

/**
 * @param {WrittenRecipe | null} was @param {WrittenRecipe} mine @param {WrittenRecipe} theirs
 * @param {ReadonlyMap<string, string>} [answers] @returns {{document: WrittenRecipe, rows: MergeRow[]}}
 */
export function mergeRecipes(was, mine, theirs, answers = new Map()) {
  const names = namesIn([was, theirs, mine].flatMap((each) => each ?? []));
  /** @type {MergeRow[]} */
  const rows = [];
  const whole = { at: "", words: [], table: "", path: "", part: "" };
  const document = /** @type {WrittenRecipe} */ (merge(was ?? undefined, mine, theirs, whole));
  return { document: { ...document, ingredients: usedToo(document, [mine, theirs]) }, rows };

  /** @param {unknown} old @param {unknown} one @param {unknown} other @param {Spot} spot @returns {unknown} */
  function merge(old, one, other, spot) {
    if (isSame(one, other)) return one;
    if (isThing(one) && isThing(other)) return mergeThing(isThing(old) ? old : {}, one, other, spot);
    if (one && other) {
      const [before, ours, others] = [old ?? [], one, other].map(byKey);
      if (before && ours && others) return mergeList(before, ours, others, spot);
      if (isWords(one) && isWords(other)) return mergeWords(isWords(old) ? old : [], one, other, spot);
    }
    return answered(
      spot.at,
      row(spot, isSame(old, one) ? "theirs" : isSame(old, other) ? "mine" : "asked", [old, one, other]),
    ) === "theirs"
      ? other
      : one;
  }

  /**
   * Keep a row of what differs; where it comes from.
   * @param {Spot} spot @param {From} from @param {readonly unknown[]} values
   */
  function row(spot, from, values) {
    const label = spot.isList
      ? ""
      : spot.isOrder
        ? say("page-recipe-order")
        : fieldWords(spot.table, spot.path);
    const [old, one, other] = values.map((value) => wordsOf(value, spot, names));
    rows.push({
      at: spot.at,
      where: [spot.words.join(", ") || say("page-recipe-itself"), label].filter(Boolean).join(": "),
      was: old,
      mine: one,
      theirs: other,
      from,
    });
    return from;
  }

  /** @param {string} at @param {From} from @returns {string} */
  function answered(at, from) {
    return from === "asked" ? (answers.get(at) ?? "mine") : from;
  }

  /** @param {Thing} old @param {Thing} one @param {Thing} other @param {Spot} spot */
  function mergeThing(old, one, other, spot) {
    /** @type {{[key: string]: unknown}} */
    const merged = {};
    for (const key of new Set([...Object.keys(one), ...Object.keys(other)])) {
      const value = merge(old[key], one[key], other[key], inside(spot, key, names));
      if (value !== undefined) merged[key] = value;
    }
    return merged;
  }

  /**
   * What one side took away and the other left alone is gone; what is new stands behind what its maker put it behind.
   * @param {Things} old @param {Things} one @param {Things} other @param {Spot} spot
   */
  function mergeList(old, one, other, spot) {
    const items = new Map();
    for (const key of new Set([...one.keys(), ...other.keys()])) {
      const item = merge(old.get(key), one.get(key), other.get(key), inside(spot, key, names));
      if (item !== undefined) items.set(key, item);
    }
    /** @param {Things} map */
    const shared = (map) => [...map.keys()].filter((key) => old.has(key) && one.has(key) && other.has(key));
    const [before, ours, others] = [old, one, other].map(shared);
    const at = `${spot.at}#`;
    let from = isSame(before, ours) ? "theirs" : "mine";
    if (![before, others].some((order) => isSame(order, ours)) && !isSame(before, others)) {
      /** @type {[keys: string[], things: Things][]} */
      const orders = [
        [before, old],
        [ours, one],
        [others, other],
      ];
      const said = orders.map(([keys, map]) => keys.map((key) => wordsOf(map.get(key), spot, names)));
      from = answered(at, row({ ...spot, at, isList: false, isOrder: true }, "asked", said));
    }
    const [first, second] = from === "theirs" ? [other, one] : [one, other];
    const order = [...first.keys()];
    [...second.keys()].forEach((key, place, keys) => {
      if (!first.has(key)) order.splice(place ? order.indexOf(keys[place - 1]) + 1 : 0, 0, key);
    });
    return order.filter((key) => items.has(key)).map((key) => items.get(key));
  }

  /**
   * What either side added to a list of words is there, what either took away is not.
   * @param {readonly string[]} old @param {string[]} one @param {string[]} other @param {Spot} spot
   */
  function mergeWords(old, one, other, spot) {
    row(spot, isSame(old, one) ? "theirs" : isSame(old, other) ? "mine" : "both", [old, one, other]);
    const kept = one.filter((each) => other.includes(each) || !old.includes(each));
    return [...kept, ...other.filter((each) => !old.includes(each) && !kept.includes(each))];
  }
}

/**
 * Where a key of the thing at this spot is: its path by ids, the names on the way to it, whose fields it has.
 * @param {Spot} spot @param {string} key @param {Names} names @returns {Spot}
 */
function inside(spot, key, names) {
  const at = join(spot.at, key);
  if (spot.isList)
    return {
      at,
      words: [...spot.words, names.get(`${spot.part} ${spot.table} ${key}`) ?? ""].filter(Boolean),
      table: spot.table,
      path: "",
      part: spot.table === "components" ? key : spot.part,
    };
  if (Object.hasOwn(LISTS, key)) return { ...spot, at, table: key, isList: true };
  if (key === "assembly")
    return { at, words: [say("page-recipe-joining")], table: "components", path: "", part: key };
  return { ...spot, at, path: join(spot.path, key) };
}

/**
 * What ids stand for, by the part they are in and the list they are of; the newest name of each.
 * @param {readonly WrittenRecipe[]} documents @returns {Names}
 */
function namesIn(documents) {
  const names = new Map();
  for (const document of documents) {
    for (const [id, { name }] of Object.entries(document.ingredients)) names.set(` ingredients ${id}`, name);
    for (const { part, id } of partsOf(document)) {
      names.set(` components ${id}`, part.name ?? say("page-recipe-joining"));
      names.set(`assembly takes ${id}`, part.name);
      for (const line of part.lines ?? [])
        names.set(`${id} lines ${line.id}`, document.ingredients[line.ingredient]?.name);
      for (const step of part.steps)
        names.set(`${id} steps ${step.id}`, say("page-recipe-quoted", { title: step.title }));
    }
  }
  return names;
}

/**
 * A value as a maker reads it: ids by what they stand for.
 * @param {unknown} value @param {Spot} spot @param {Names} names @returns {string}
 */
function wordsOf(value, spot, names) {
  if (value === undefined) return "\u2013";
  if (typeof value === "boolean") return value ? say("page-recipe-yes") : say("page-recipe-no");
  if (Array.isArray(value))
    return value.map((each) => wordsOf(each, spot, names)).join(", ") || say("page-recipe-nothing");
  if (isThing(value)) {
    if (value.title || value.name) return String(value.title ?? value.name);
    return Object.entries(value)
      .filter(([key]) => key !== "id")
      .map(([key, each]) => wordsOf(each, { ...spot, path: key }, names))
      .join(", ");
  }
  const text = String(value);
  const key = last(spot.path.split("."));
  const [part, id] = text.includes(".") ? text.split(".") : [spot.part, text];
  /** @type {{readonly [key: string]: string | undefined}} */
  const stands = {
    ingredient: ` ingredients ${text}`,
    component: ` components ${text}`,
    after: `${part} steps ${id}`,
    from: `${part} steps ${id}`,
    lines: `${spot.part} lines ${text}`,
    of: `${spot.part} lines ${text}`,
  };
  return names.get(stands[key] ?? "") ?? choiceWords(spot.table, spot.path, text) ?? text;
}

/**
 * The ingredients, with any that one side took away while the other's lines still use it.
 * @param {WrittenRecipe} document @param {readonly WrittenRecipe[]} sides @returns {WrittenRecipe["ingredients"]}
 */
function usedToo({ ingredients, components, assembly }, sides) {
  const all = Object.assign({}, ...sides.map((side) => side.ingredients), ingredients);
  const lines = [...components, ...(assembly ? [assembly] : [])].flatMap((part) => part.lines ?? []);
  const used = new Set(
    lines.flatMap((line) => [line, ...(line.substitutes ?? [])]).map(({ ingredient }) => ingredient),
  );
  return Object.fromEntries(
    Object.entries(all).filter(([id]) => Object.hasOwn(ingredients, id) || used.has(id)),
  );
}
