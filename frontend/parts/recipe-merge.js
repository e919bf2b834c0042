// Two edits of one recipe put together, over the version that both began from: what only one side
// changed is taken from that side, what both changed is asked row by row. Pure.
//
//   const { document, rows } = mergeRecipes(was, mine, theirs, new Map([["written_for", "theirs"]]));
// rows // [{ at, where: "Fizz, Citric acid: Amount", was, mine, theirs, from: "mine" | "theirs" | "both" | "asked" }]
//
// Answers are kept by a row's `at`; what is asked and not answered yet stands as mine. Things are
// matched by their ids, never by their place in a list. was: null when it is not known any more.

import { canonical } from "../bench/index.js";
import { join } from "./recipe-fields.js";
import {
  COMPONENT,
  COMPONENT_MORE,
  INGREDIENT,
  INGREDIENT_OF_KIND,
  KINDS,
  LINE,
  partsOf,
  RECIPE,
  RECIPE_MORE,
  STEP_MORE,
} from "./recipe-forms.js";

const labels = (...tables) => new Map(tables.flat().map(([key, label]) => [key, label.replace("*", "")]));
/** The lists of a recipe, each with what the fields of a thing in it are called on the page. */
const LABELS = {
  components: labels(COMPONENT, COMPONENT_MORE),
  lines: labels(LINE, [
    ["ingredient", "Ingredient"],
    ["amount", "Amount"],
  ]),
  steps: labels(...Object.values(KINDS).flatMap(({ main, more }) => [main, more]), STEP_MORE, [
    ["title", "What to do"],
    ["says", "How"],
    ["kind", "Kind of step"],
    ["after", "Comes after"],
  ]),
  ingredients: labels(INGREDIENT, ...Object.values(INGREDIENT_OF_KIND)),
  takes: labels([["count", "How many in one"]]),
};
const RECIPE_LABELS = labels(RECIPE, RECIPE_MORE);

const isSame = (one, other) => canonical([one ?? null]) === canonical([other ?? null]);
const isThing = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
const isWords = (value) => Array.isArray(value) && value.every((each) => typeof each === "string");

/** A list whose things can be told apart, as a map of them; else null. */
function byKey(list) {
  if (!Array.isArray(list) || !list.every(isThing)) return null;
  const map = new Map(
    list.map((thing) => [thing.id ?? thing.component ?? thing.ingredient ?? thing.name, thing]),
  );
  return map.size === list.length && !map.has(undefined) ? map : null;
}

export function mergeRecipes(was, mine, theirs, answers = new Map()) {
  const names = namesIn([was, theirs, mine].filter(Boolean));
  const rows = [];
  const document = merge(was ?? undefined, mine, theirs, {
    at: "",
    words: [],
    table: "",
    path: "",
    part: "",
  });
  return { document: { ...document, ingredients: usedToo(document, [mine, theirs]) }, rows };

  function merge(old, one, other, spot) {
    if (isSame(one, other)) return one;
    if (isThing(one) && isThing(other)) return mergeThing(isThing(old) ? old : {}, one, other, spot);
    if (one && other) {
      const lists = [old ?? [], one, other].map(byKey);
      if (lists.every(Boolean)) return mergeList(...lists, spot);
      if (isWords(one) && isWords(other)) return mergeWords(old ?? [], one, other, spot);
    }
    return answered(
      spot.at,
      row(spot, isSame(old, one) ? "theirs" : isSame(old, other) ? "mine" : "asked", [old, one, other]),
    ) === "theirs"
      ? other
      : one;
  }

  /** Keep a row of what differs; where it comes from. */
  function row(spot, from, values) {
    const label = spot.isList
      ? ""
      : ((LABELS[spot.table] ?? RECIPE_LABELS).get(spot.path) ?? spot.path.replaceAll(/[._]/g, " "));
    const [old, one, other] = values.map((value) => wordsOf(value, spot, names));
    rows.push({
      at: spot.at,
      where: [spot.words.join(", ") || "The recipe", label].filter(Boolean).join(": "),
      was: old,
      mine: one,
      theirs: other,
      from,
    });
    return from;
  }

  function answered(at, from) {
    return from === "asked" ? (answers.get(at) ?? "mine") : from;
  }

  function mergeThing(old, one, other, spot) {
    const merged = {};
    for (const key of new Set([...Object.keys(one), ...Object.keys(other)])) {
      const value = merge(old[key], one[key], other[key], inside(spot, key, names));
      if (value !== undefined) merged[key] = value;
    }
    return merged;
  }

  /**
   * What one side took away and the other left alone is gone; what is new stands behind what its maker put it behind.
   */
  function mergeList(old, one, other, spot) {
    const items = new Map();
    for (const key of new Set([...one.keys(), ...other.keys()])) {
      const item = merge(old.get(key), one.get(key), other.get(key), inside(spot, key, names));
      if (item !== undefined) items.set(key, item);
    }
    const shared = (map) => [...map.keys()].filter((key) => old.has(key) && one.has(key) && other.has(key));
    const [before, ours, others] = [old, one, other].map(shared);
    const at = `${spot.at}#`;
    let from = isSame(before, ours) ? "theirs" : "mine";
    if (![before, others].some((order) => isSame(order, ours)) && !isSame(before, others)) {
      const said = [
        [before, old],
        [ours, one],
        [others, other],
      ].map(([keys, map]) => keys.map((key) => wordsOf(map.get(key), spot, names)));
      from = answered(at, row({ ...spot, at, isList: false, path: "order" }, "asked", said));
    }
    const [first, second] = from === "theirs" ? [other, one] : [one, other];
    const order = [...first.keys()];
    [...second.keys()].forEach((key, place, keys) => {
      if (!first.has(key)) order.splice(place ? order.indexOf(keys[place - 1]) + 1 : 0, 0, key);
    });
    return order.filter((key) => items.has(key)).map((key) => items.get(key));
  }

  /** What either side added to a list of words is there, what either took away is not. */
  function mergeWords(old, one, other, spot) {
    row(spot, isSame(old, one) ? "theirs" : isSame(old, other) ? "mine" : "both", [old, one, other]);
    const kept = one.filter((each) => other.includes(each) || !old.includes(each));
    return [...kept, ...other.filter((each) => !old.includes(each) && !kept.includes(each))];
  }
}

/** Where a key of the thing at this spot is: its path by ids, the names on the way to it, whose fields it has. */
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
  if (Object.hasOwn(LABELS, key)) return { ...spot, at, table: key, isList: true };
  if (key === "assembly") return { at, words: ["Joining them"], table: "components", path: "", part: key };
  return { ...spot, at, path: join(spot.path, key) };
}

/** What ids stand for, by the part they are in and the list they are of; the newest name of each. */
function namesIn(documents) {
  const names = new Map();
  for (const document of documents) {
    for (const [id, { name }] of Object.entries(document.ingredients)) names.set(` ingredients ${id}`, name);
    for (const { part, id } of partsOf(document)) {
      names.set(` components ${id}`, part.name ?? "Joining them");
      names.set(`assembly takes ${id}`, part.name);
      for (const line of part.lines ?? [])
        names.set(`${id} lines ${line.id}`, document.ingredients[line.ingredient]?.name);
      for (const step of part.steps) names.set(`${id} steps ${step.id}`, `\u201c${step.title}\u201d`);
    }
  }
  return names;
}

/** A value as a maker reads it: ids by what they stand for. */
function wordsOf(value, spot, names) {
  if (value === undefined) return "\u2013";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value)) return value.map((each) => wordsOf(each, spot, names)).join(", ") || "nothing";
  if (isThing(value)) {
    if (value.title || value.name) return value.title ?? value.name;
    return Object.entries(value)
      .filter(([key]) => key !== "id")
      .map(([key, each]) => wordsOf(each, { ...spot, path: key }, names))
      .join(", ");
  }
  const text = String(value);
  const key = spot.path.split(".").at(-1);
  const [part, id] = text.includes(".") ? text.split(".") : [spot.part, text];
  const stands = {
    ingredient: ` ingredients ${text}`,
    component: ` components ${text}`,
    after: `${part} steps ${id}`,
    from: `${part} steps ${id}`,
    lines: `${spot.part} lines ${text}`,
    of: `${spot.part} lines ${text}`,
  }[key];
  return names.get(stands) ?? text;
}

/** The ingredients, with any that one side took away while the other's lines still use it. */
function usedToo({ ingredients, components, assembly }, sides) {
  const all = Object.assign({}, ...sides.map((side) => side.ingredients), ingredients);
  const lines = [...components, assembly ?? {}].flatMap((part) => part.lines ?? []);
  const used = new Set(
    lines.flatMap((line) => [line, ...(line.substitutes ?? [])]).map(({ ingredient }) => ingredient),
  );
  return Object.fromEntries(
    Object.entries(all).filter(([id]) => Object.hasOwn(ingredients, id) || used.has(id)),
  );
}
