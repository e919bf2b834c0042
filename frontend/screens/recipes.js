// What is on the bench and what can be made: open runs with what they ask now, the recipes,
// and the runs that are done.
//
//   screen.data = { recipes, drafts, runs, made, isAsking, bench: (runId) => now, waits, link, copies, now }
//   copies: how they stand, when a maker should know; else null
//   isAsking: a first visit, and not all was heard yet: a list stands once it is whole, the upper ones first
//   "update-wanted"   the maker lets the newer page take over
//   "find-wanted" { words }   answered by screen.found({ words, runs, total, says }): batches that the server has

import { UNNAMED } from "../bench/sheet-words.js";
import { batchRow } from "../parts/batch-row.js";
import { define, first, given, h, keyed, setAttr, setText, show, tell } from "../parts/dom.js";
import { letterMark } from "../parts/hatch.js";
import { linkWords } from "../parts/link-mark.js";
import { mark } from "../parts/marks.js";
import { pageHead } from "../parts/page-head.js";
import { COPY_OLD_MS, day, pieces, soon } from "../parts/words.js";
import { say } from "../words.js";
/** @import { Now } from "../../bench/shapes/page" */
/** @import { DraftRow, Item, Link, RecipeRow, WeekSeen } from "../../types/keep" */
/** @import { CopiesNow } from "../../types/answers" */
/** @import { Run } from "../keep/run.js" */
/** @import { PieceWords } from "../../bench/shapes/page" */

const LETTERS = "ABCDEFGHIJKL";
// A few recipes stand there to be seen; of many, the first, and what is looked for.
const MOST_SEEN = 12;
const ASK_AFTER_MS = 300; // a word is not asked for letter by letter

/** @param {() => void} oninput */
const searchField = (oninput) =>
  h("input", { type: "search", maxlength: 100, autocomplete: "off", enterkeyhint: "search", oninput });

/**
 * The parts of the page that change.
 * @param {{update: () => void, look: () => void, find: () => void, all: () => void}} given
 */
function makeParts({ update, look, find, all }) {
  const parts = {
    link: h("p", { class: "notice small" }),
    update: h(
      "p",
      { class: "notice" },
      say("page-recipes-update"),
      " ",
      h("button", { type: "button", class: "outlined", onclick: update }, say("page-recipes-update-use")),
    ),
    week: h("a", { class: "row", href: "#/week" }),
    copies: h(
      "p",
      { class: "notice" },
      h("span", {}),
      " ",
      h("a", { href: "#/studio" }, say("page-recipes-copy-why")),
    ),
    strip: h("wait-strip"),
    open: h("ul", { class: "rows" }),
    recipes: h("ul", { class: "rows recipe-rows" }),
    drafts: h("ul", { class: "plain" }),
    first: h("div", {}),
    madeList: h("ul", { class: "rows" }),
    madeSays: h("p", { class: "soft", role: "status", hidden: true }),
    search: searchField(look),
    recipeSearch: searchField(find),
    recipesSay: h("p", { class: "soft", role: "status", hidden: true }),
    allRecipes: h("button", { type: "button", class: "quiet add-row", onclick: all }),
  };
  const findRecipe = h(
    "label",
    { class: "field find" },
    h("span", {}, say("page-recipes-find-recipe")),
    parts.recipeSearch,
  );
  const bench = h(
    "section",
    { "aria-label": say("page-recipes-bench") },
    h("h2", { class: "section-name" }, say("page-recipes-bench")),
    parts.strip,
    parts.open,
  );
  const toMake = h(
    "section",
    { "aria-label": say("page-recipes-title") },
    h("h2", { class: "section-name" }, say("page-recipes-to-make")),
    findRecipe,
    parts.recipesSay,
    parts.recipes,
    parts.allRecipes,
    parts.drafts,
    h("a", { class: "button quiet add-row", href: "#/recipe/new" }, say("page-recipes-write-new")),
    h("a", { class: "button quiet", href: "#/bring" }, say("page-recipes-bring")),
    h("a", { class: "button quiet", href: "#/buying" }, say("page-title-buying")),
  );
  const made = h(
    "section",
    { "aria-label": say("page-recipes-made") },
    h("h2", { class: "section-name" }, say("page-recipes-made")),
    h("label", { class: "field find" }, h("span", {}, say("page-recipes-find")), parts.search),
    parts.madeSays,
    parts.madeList,
  );
  return { ...parts, findRecipe, bench, toMake, made };
}

/**
 * @typedef {{id: string, title: string, number: string | null, finished_at: number | null, size: {pieces: number},
 *   piece?: PieceWords}} Made a batch in the list of those that were made
 * @typedef {{words: string, runs?: readonly Made[], total?: number, says?: string}} FoundMade
 * @typedef {{recipes: readonly RecipeRow[], drafts: readonly DraftRow[], runs: readonly Run[], made: readonly Made[],
 *   isAsking: boolean, bench: (run: string) => Now, waits: readonly Item[], link: Link, week: WeekSeen,
 *   copies: CopiesNow | null,
 *   now: () => number}} RecipesData
 * @typedef {ReturnType<typeof makeParts>} RecipesParts
 */

export class RecipesScreen extends HTMLElement {
  /** @type {RecipesParts} */
  #parts = given();
  /** @type {readonly Made[]} */
  #made = [];
  /** @type {readonly RecipeRow[]} */
  #recipes = [];
  #isWhole = false; // the maker asked for all recipes
  /** @type {FoundMade | null} */
  #told = null; // what the server found, and for which words
  #asking = 0;

  /** @param {RecipesData} data */
  set data(data) {
    if (!this.#parts) this.#build();
    const { recipes, drafts, runs, made, isAsking, bench, waits, link, week, copies, now } = data;
    const parts = this.#parts;
    const open = runs.filter((run) => run.open);

    setText(parts.link, linkWords(link));
    show(parts.link, parts.link.textContent !== "");
    show(parts.update, link.update);
    const isOld = copies?.last_at && copies.last_at < now() - COPY_OLD_MS;
    show(parts.copies, Boolean(copies && (copies.stopped || isOld)));
    setText(
      parts.copies.children[0],
      copies?.last_at
        ? say("page-recipes-copy-old", { at: day(copies.last_at) })
        : say("page-recipes-copy-none"),
    );
    setText(parts.week, week ? nextWords(week) : "");
    show(parts.week, week !== null);
    show(parts.bench, open.length > 0);
    parts.strip.data = { waits, now, here: open.length === 1 ? open[0].id : null };
    show(parts.strip, waits.length > 0);
    keyed(
      parts.open,
      open,
      (run) => run.id,
      makeOpenRun,
      (node, run, index) => writeOpenRun(node, run, bench(run.id), index === 0),
    );
    this.#recipes = recipes;
    this.#listRecipes();
    keyed(
      parts.drafts,
      drafts,
      (draft) => draft.id,
      makeDraft,
      (node, draft) =>
        writeDraft(
          node,
          draft,
          recipes.find(({ id }) => id === draft.id),
        ),
    );
    // With nothing made or written yet there is no list to show: what this is, and three ways to begin.
    const isFirst = !isAsking && recipes.length + runs.length + drafts.length === 0;
    show(parts.first, isFirst && !link.shut);
    if (isFirst && !parts.first.hasChildNodes()) this.#begin();
    show(parts.toMake, isAsking ? recipes.length > 0 : !isFirst);
    show(parts.made, made.length > 0);
    this.#made = made;
    this.#list();
  }

  /** How to begin is for who has nothing yet; with the server gone it is asked for again at the next turn. */
  async #begin() {
    const module = await import("../parts/first-visit.js").catch(() => null);
    if (module) this.#parts.first.replaceChildren(module.firstVisit());
  }

  /** What the server has for these words; `says` instead when it could not be asked. @param {FoundMade} told */
  found(told) {
    this.#told = told;
    this.#list();
  }

  /** All recipes are on this phone: a word is found in a title, a part or an ingredient. */
  #listRecipes() {
    const { recipes, recipeSearch, recipesSay, findRecipe, allRecipes } = this.#parts;
    const words = wordsOf(recipeSearch.value);
    const found = words.length ? this.#recipes.filter((each) => has(textOf(each), words)) : this.#recipes;
    const seen = this.#isWhole ? found : found.slice(0, MOST_SEEN);
    keyed(recipes, seen, (recipe) => `${recipe.id} ${recipe.version}`, makeRecipe);
    show(findRecipe, this.#recipes.length > MOST_SEEN);
    setText(allRecipes, say("page-recipes-all", { count: found.length }));
    show(allRecipes, found.length > seen.length);
    setText(recipesSay, words.length && !found.length ? say("page-recipes-no-recipe") : "");
    show(recipesSay, recipesSay.textContent !== "");
  }

  /** What is on this phone at once, and the rest when the server has told of it. */
  #list() {
    const { search, madeList, madeSays } = this.#parts;
    const words = wordsOf(search.value);
    const here = this.#made.filter(({ title, number }) => has(folded(`${title} ${number ?? ""}`), words));
    const told = words.length > 0 && this.#told?.words === search.value.trim() ? this.#told : null;
    const known = new Set(here.map(({ id }) => id));
    const rows = [...here, ...(told?.runs ?? []).filter(({ id }) => !known.has(id))].sort(
      (one, other) => (other.finished_at ?? Infinity) - (one.finished_at ?? Infinity),
    );
    keyed(madeList, rows, ({ id, number }) => `${id} ${number}`, makeMade);
    const more = (told?.total ?? 0) - (told?.runs?.length ?? 0);
    let says = told?.says ?? (told && rows.length === 0 ? say("page-recipes-no-match") : "");
    if (more > 0) says = say("page-recipes-more", { count: more });
    setText(madeSays, words.length > 0 ? says || (told ? "" : say("page-common-asking")) : "");
    show(madeSays, madeSays.textContent !== "");
  }

  #look() {
    clearTimeout(this.#asking);
    this.#list();
    const words = this.#parts.search.value.trim();
    if (words) this.#asking = setTimeout(() => tell(this, "find-wanted", { words }), ASK_AFTER_MS);
  }

  #build() {
    const parts = makeParts({
      update: () => tell(this, "update-wanted"),
      look: () => this.#look(),
      find: () => {
        this.#isWhole = false;
        this.#listRecipes();
      },
      all: () => {
        this.#isWhole = true;
        this.#listRecipes();
      },
    });
    parts.strip.addEventListener("wait-chosen", ({ detail }) => tell(this, "go-bench", detail));
    this.#parts = parts;
    this.append(
      h(
        "div",
        { class: "sheet" },
        pageHead("Bowlside", "recipes"),
        parts.link,
        parts.update,
        parts.copies,
        parts.bench,
        parts.week,
        parts.first,
        parts.toMake,
        parts.made,
      ),
    );
  }
}

/** What the week begins next. @param {NonNullable<WeekSeen>} week */
function nextWords({ title, pieces: count, starts_at: start, begin_by: by }) {
  const line = say("page-week-line", { count, title });
  const at = soon(start);
  return by === null || by <= start
    ? say("page-week-next", { line, at })
    : say("page-week-next-by", { line, at, by: soon(by) });
}

/** @param {Run} run */
function makeOpenRun(run) {
  return h(
    "li",
    {},
    h(
      "a",
      { class: "row open-run", href: `#/bench/${run.id}` },
      h("span", { class: "row-mark" }),
      h("span", { class: "row-words" }, h("b", { class: "row-title" }), h("span", { class: "soft small" })),
      h("span", { class: "go" }, say("page-recipes-go-on")),
    ),
  );
}

/** @param {Element} node @param {Run} run @param {Now} bench @param {boolean} isFirst */
function writeOpenRun(node, run, bench, isFirst) {
  const link = first(node);
  const [box, words] = [first(link), first(link, 1)];
  const prompt = bench.prompts[0];
  if (box.dataset.letter !== (prompt?.letter ?? "A")) {
    box.dataset.letter = prompt?.letter ?? "A";
    box.replaceChildren(letterMark(box.dataset.letter));
  }
  setText(first(words), prompt ? prompt.title : say("page-recipes-waiting"));
  setText(first(words, 1), `${run.sheet.recipe.title}, ${pieces(run.size.pieces, run.sheet.piece)}`);
  // Copper is for the one thing to do now: the newest run.
  setAttr(first(link, 2), "class", isFirst ? "copper go" : "button outlined go");
  setAttr(
    link,
    "aria-label",
    say("page-recipes-go-on-with", { title: run.sheet.recipe.title, now: first(words).textContent ?? "" }),
  );
}

/** @param {RecipeRow} recipe */
function makeRecipe(recipe) {
  const { title, document } = recipe;
  const piece = document.piece ?? UNNAMED;
  const parts = document.components.map((component, place) =>
    h("li", {}, letterMark(LETTERS[place]), h("span", {}, component.name)),
  );
  return h(
    "li",
    {},
    h(
      "a",
      { class: "row recipe", href: `#/size/${recipe.id}` },
      h(
        "span",
        { class: "row-words" },
        h("b", { class: "row-title recipe-title" }, title),
        document.summary ? h("span", { class: "recipe-summary" }, document.summary) : null,
        h("ul", { class: "part-names small" }, parts),
        h(
          "span",
          { class: "soft small" },
          say("page-recipes-written-for", { pieces: pieces(document.written_for, piece) }),
        ),
      ),
      mark("next"),
    ),
  );
}

/** @param {DraftRow} draft */
function makeDraft({ id }) {
  return h(
    "li",
    {},
    h("a", { class: "button quiet add-row", href: `#/recipe/${id}` }),
    h("p", { class: "notice small" }),
  );
}

/** @param {Element} node @param {DraftRow} draft @param {RecipeRow | undefined} kept */
function writeDraft(node, draft, kept) {
  const { title } = draft.document;
  setText(first(node), title ? say("page-recipes-draft", { title }) : say("page-recipes-draft-new"));
  let says = draft.send ? say("page-recipes-draft-to-send") : "";
  if (draft.errors) says = say("page-recipes-draft-errors");
  if (kept && kept.version !== draft.base) says = say("page-recipes-draft-changed");
  setText(first(node, 1), says);
  show(first(node, 1), says !== "");
}

/**
 * A batch on this phone knows what its pieces are called; one that is only on the server tells the number.
 * @param {Made} batch
 */
const makeMade = (batch) =>
  batchRow(
    batch,
    batch.number,
    batch.piece
      ? pieces(batch.size.pieces, batch.piece)
      : say("page-recipes-pieces", { count: batch.size.pieces }),
  );

/** As the server folds what it looks for. @param {string} text */
function folded(text) {
  return text.normalize("NFKC").toLowerCase().replaceAll("\u00df", "ss").trim();
}

/** @param {string} text */
const wordsOf = (text) => folded(text).split(/\s+/).filter(Boolean);

/** @param {string} text folded @param {readonly string[]} words */
const has = (text, words) => words.every((word) => text.includes(word));

const TEXTS = /** @type {WeakMap<RecipeRow, string>} */ (new WeakMap());

/** What a recipe is found by, folded once for each version. @param {RecipeRow} recipe */
function textOf(recipe) {
  const { title, document: written } = recipe;
  const names = [...written.components, ...Object.values(written.ingredients)].map(({ name }) => name);
  const text = TEXTS.get(recipe) ?? folded([title, written.summary ?? "", ...names].join(" "));
  TEXTS.set(recipe, text);
  return text;
}

export const registerRecipesScreen = () => define("recipes-screen", RecipesScreen);
