// The search over all: what this phone has at once, and the rest as the server tells it; in groups, each saying what
// it is.
//
//   const finding = new Finding(section, () => data, (asked) => …);   finding.look("d-a41")   finding.found(told)

import { folded, hasWords, wordsOf } from "../bench/folding.js";
import { h } from "./dom.js";
import { mark } from "./marks.js";
import { shelfOf } from "./stock.js";
import { day } from "./words.js";
import { say } from "../words.js";
/** @import { FoundGroup } from "../../types/answers" */
/** @import { KeptEntry, RecipeRow } from "../../types/keep" */
/** @import { Run } from "../keep/run.js" */
/** @import { Made, RecipesData } from "../screens/recipes.js" */

const ASK_AFTER_MS = 300; // a word is not asked for letter by letter
const MOST_HERE = 30;
/** @type {readonly FoundKind[]} */
const KINDS = ["batch", "recipe", "ingredient", "lot", "note"];

/**
 * @typedef {FoundGroup["kind"]} FoundKind
 * @typedef {FoundGroup["found"][number]} Found
 * @typedef {{words: string, groups?: readonly FoundGroup[], page?: number, says?: string}} FoundThere `says`: why not
 * @typedef {{words: string, kind?: FoundKind, page?: number}} FindAsked
 */

export class Finding {
  #section;
  #data;
  #ask;
  #words = "";
  #asking = 0;
  #says = "";
  #isTold = false;
  /** @type {Map<FoundKind, {found: Found[], page: number, more: boolean}>} */
  #there = new Map();

  /** @param {HTMLElement} section @param {() => RecipesData} data @param {(asked: FindAsked) => void} ask */
  constructor(section, data, ask) {
    this.#section = section;
    this.#data = data;
    this.#ask = ask;
  }

  /** @param {string} words */
  look(words) {
    clearTimeout(this.#asking);
    if (words !== this.#words) this.#there.clear();
    this.#words = words;
    this.#says = "";
    this.#isTold = false;
    if (!words) return;
    this.#asking = setTimeout(() => this.#ask({ words }), ASK_AFTER_MS);
    this.draw();
    this.#data()
      .whole()
      .then(() => this.#words === words && this.draw());
  }

  /** @param {FoundThere} told */
  found({ words, groups = [], page = 1, says = "" }) {
    if (words !== this.#words) return;
    this.#says = says;
    this.#isTold = true;
    for (const { kind, found, more } of groups) {
      const before = page > 1 ? (this.#there.get(kind)?.found ?? []) : [];
      this.#there.set(kind, { found: [...before, ...found], page, more });
    }
    this.draw();
  }

  draw() {
    const words = wordsOf(this.#words);
    const here = words.length ? findHere(words, this.#data()) : [];
    const groups = KINDS.map((kind) => this.#group(kind, here)).filter((each) => each !== null);
    this.#section.replaceChildren(
      h("p", { class: "soft", role: "status" }, this.#status(groups.length > 0)),
      ...groups,
    );
  }

  /** @param {boolean} hasAny */
  #status(hasAny) {
    if (!this.#isTold) return say("page-common-asking");
    if (this.#says) return this.#says;
    return hasAny ? "" : say("page-find-nothing");
  }

  /** @param {FoundKind} kind @param {readonly Found[]} here */
  #group(kind, here) {
    const there = this.#there.get(kind);
    const known = new Set(there?.found.map(({ id }) => id));
    const all = [
      ...here.filter((each) => each.kind === kind && !known.has(each.id)),
      ...(there?.found ?? []),
    ];
    if (!all.length) return null;
    const more = () => this.#ask({ words: this.#words, kind, page: (there?.page ?? 0) + 1 });
    return h(
      "section",
      { "aria-label": say(`page-find-of-${kind}`) },
      h("h2", { class: "section-name" }, say(`page-find-of-${kind}`)),
      h("ul", { class: "rows" }, all.map(foundRow)),
      there?.more
        ? h("button", { type: "button", class: "quiet add-row", onclick: more }, say("page-find-more"))
        : null,
    );
  }
}

/** @param {readonly string[]} words folded @param {RecipesData} data @returns {Found[]} */
function findHere(words, { recipes, made, runs, shelf }) {
  const open = runs.flatMap((run) => (run.open ? { id: run.id, ...run.told } : []));
  const all = [
    ...[...open, ...made].filter((each) => fits(words, each.title, each.number)).map(batchHere),
    ...recipes.filter((each) => hasWords(textOf(each), words)).map(recipeHere),
    ...onShelf(shelf(), words),
    ...runs.flatMap((run) => notesHere(run, words)),
  ];
  return KINDS.flatMap((kind) => all.filter((each) => each.kind === kind).slice(0, MOST_HERE));
}

/** @param {readonly string[]} words @param {...(string | null | undefined)} texts */
const fits = (words, ...texts) => hasWords(folded(texts.join(" ")), words);

/** @param {Made} batch @returns {Found} */
const batchHere = ({ id, title, number, size, finished_at, release = null }) => ({
  kind: "batch",
  id,
  title,
  number,
  pieces: size.pieces,
  finished_at,
  release,
});

/** @param {RecipeRow} recipe @returns {Found} */
const recipeHere = ({ id, title, version, tags = [], archived_at = null }) => ({
  kind: "recipe",
  id,
  title,
  version,
  tags,
  archived_at,
});

/** @param {{[field: string]: unknown}} body */
const textIn = ({ text }) => String(text ?? "");

/** @param {Run} run @param {readonly string[]} words @returns {Found[]} */
function notesHere({ id: run, entries, told }, words) {
  const undone = new Set(entries.flatMap(({ kind, body }) => (kind === "undone" ? body.entry : [])));
  const notes = entries.filter(
    ({ id, kind, body }) => kind === "noted" && !undone.has(id) && fits(words, textIn(body)),
  );
  const { title, number } = told;
  return notes.map(({ id, at, body }) => ({ kind: "note", id, run, title, number, at, text: textIn(body) }));
}

/** @param {readonly KeptEntry[]} entries @param {readonly string[]} words @returns {Found[]} */
function onShelf(entries, words) {
  const { ingredients, lots } = shelfOf(entries);
  /** @param {string} key */
  const nameOf = (key) => ingredients[key]?.card?.name ?? key;
  /** @param {readonly {text: string}[]} notes */
  const noteOf = (notes) => notes.find(({ text }) => fits(words, text))?.text ?? null;
  /** @type {Found[]} */
  const found = [];
  for (const [id, { card, notes }] of Object.entries(ingredients)) {
    const isNamed = fits(words, nameOf(id), card?.inci);
    const note = isNamed ? null : noteOf(notes);
    if (isNamed || note) found.push({ kind: "ingredient", id, title: nameOf(id), note });
  }
  for (const [id, { ingredient, number, supplier, code, notes }] of Object.entries(lots)) {
    const title = nameOf(ingredient);
    const isNamed = fits(words, number, title, supplier, code);
    const note = isNamed ? null : noteOf(notes);
    if (isNamed || note) found.push({ kind: "lot", id, title, number, ingredient, supplier, note });
  }
  return found;
}

const TEXTS = /** @type {WeakMap<RecipeRow, string>} */ (new WeakMap());

/** What a recipe is found by, folded once for each version. @param {RecipeRow} recipe */
function textOf(recipe) {
  const { title, document: written, tags = [] } = recipe;
  const names = [...written.components, ...Object.values(written.ingredients)].map(({ name }) => name);
  const text = TEXTS.get(recipe) ?? folded([title, written.summary ?? "", ...names, ...tags].join(" "));
  TEXTS.set(recipe, text);
  return text;
}

/** @param {Found} found */
function foundRow(found) {
  const { href, title, says } = rowOf(found);
  const words = h(
    "span",
    { class: "row-words" },
    h("b", { class: "row-title" }, title),
    h("span", { class: "soft small" }, says.filter(Boolean).join(", ")),
  );
  return h("li", {}, h("a", { class: "row", href }, words, mark("next")));
}

/** @param {Found} found @returns {{href: string, title: string, says: (string | null | undefined)[]}} */
function rowOf(found) {
  switch (found.kind) {
    case "batch": {
      const { id, number, pieces: count, finished_at: at, release } = found;
      const ended = at ? say("page-common-finished", { at: day(at) }) : say("page-common-unfinished");
      const judged = release ? say("page-common-release", { verdict: release }) : "";
      const says = [found.title, say("page-recipes-pieces", { count }), ended, judged];
      return {
        href: at ? `#/record/${id}` : `#/bench/${id}`,
        title: number ?? found.title,
        says: number ? says : says.slice(1),
      };
    }
    case "recipe":
      return {
        href: `#/size/${found.id}`,
        title: found.title,
        says: [
          say("page-find-version", { version: found.version }),
          ...found.tags,
          found.archived_at ? say("page-find-archived") : "",
        ],
      };
    case "ingredient":
      return {
        href: `#/shelf/${found.id}`,
        title: found.title,
        says: [found.note ?? say("page-find-on-shelf")],
      };
    case "lot":
      return {
        href: `#/shelf/${found.ingredient}`,
        title: found.number,
        says: [found.title, found.supplier, found.note],
      };
    case "note":
      return {
        href: `#/record/${found.run}`,
        title: found.text,
        says: [found.number ?? found.title, day(found.at)],
      };
  }
}
