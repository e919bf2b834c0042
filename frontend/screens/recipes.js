// What is on the bench and what can be made: open runs with what they ask now, the recipes,
// and the runs that are done.
//
//   screen.data = { recipes, drafts, runs, made, isAsking, bench: (runId) => now, waits, link, copies, now }
//   copies: how they stand, when a maker should know; else null
//   isAsking: a first visit, and not all was heard yet: a list stands once it is whole, the upper ones first
//   "update-wanted"   the maker lets the newer page take over
//   "find-wanted" { words, kind, page }   answered by screen.found({ words, groups, says }): what the server has

import { those } from "../bench/lists.js";
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
/** @import { DraftRow, Item, KeptEntry, Link, RecipeRow, WeekSeen } from "../../types/keep" */
/** @import { Finding, FoundThere } from "../parts/find-all.js" */
/** @import { CopiesNow } from "../../types/answers" */
/** @import { Run } from "../keep/run.js" */
/** @import { BatchVerdict, PieceWords } from "../../bench/shapes/page" */

const LETTERS = "ABCDEFGHIJKL";
// A few of each list stand there to be seen; of many, the first, and what is looked for.
const MOST_SEEN = 12;

/**
 * The parts of the page that change.
 * @param {{update: () => void, look: () => void, all: () => void, archived: () => void, allMade: () => void}} given
 */
function makeParts({ update, look, all, archived, allMade }) {
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
    search: h("input", {
      type: "search",
      maxlength: 100,
      autocomplete: "off",
      enterkeyhint: "search",
      oninput: look,
    }),
    found: h("section", { "aria-label": say("page-recipes-found"), hidden: true }),
    tags: h("div", { class: "tags", role: "group", "aria-label": say("page-recipes-tags"), hidden: true }),
    allRecipes: h("button", { type: "button", class: "quiet add-row", onclick: all }),
    archived: h("button", { type: "button", class: "quiet add-row", onclick: archived }),
    allMade: h("button", { type: "button", class: "quiet add-row", onclick: allMade }),
  };
  const find = h("label", { class: "field find" }, h("span", {}, say("page-recipes-find")), parts.search);
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
    parts.tags,
    parts.recipes,
    parts.allRecipes,
    parts.archived,
    parts.drafts,
    h("a", { class: "button quiet add-row", href: "#/recipe/new" }, say("page-recipes-write-new")),
    h("a", { class: "button quiet add-row", href: "#/bring" }, say("page-recipes-bring")),
    h("a", { class: "button quiet add-row", href: "#/buying" }, say("page-title-buying")),
  );
  const made = h(
    "section",
    { "aria-label": say("page-recipes-made") },
    h("h2", { class: "section-name" }, say("page-recipes-made")),
    parts.madeList,
    parts.allMade,
  );
  return { ...parts, find, bench, toMake, made };
}

/**
 * @typedef {{id: string, title: string, number: string | null, finished_at: number | null, size: {pieces: number},
 *   release?: BatchVerdict | null, piece?: PieceWords}} Made a batch in the list of those that were made
 * @typedef {{recipes: readonly RecipeRow[], drafts: readonly DraftRow[], runs: readonly Run[], made: readonly Made[],
 *   isAsking: boolean, bench: (run: string) => Now, waits: readonly Item[], link: Link, week: WeekSeen,
 *   copies: CopiesNow | null,
 *   shelf: () => readonly KeptEntry[], whole: () => Promise<unknown>, now: () => number}} RecipesData
 * @typedef {ReturnType<typeof makeParts>} RecipesParts
 */

export class RecipesScreen extends HTMLElement {
  /** @type {RecipesParts} */
  #parts = given();
  /** @type {RecipesData} */
  #data = given();
  #isWhole = false; // the maker asked for all recipes
  #isMadeWhole = false; // for all batches that were made
  #isArchive = false; // for those that are archived
  #tag = "";
  /** @type {Finding | null} */
  #finding = null; // parts/find-all.js, once something was looked for

  connectedCallback() {
    if (!this.#parts) this.#build();
  }

  /** @param {RecipesData} data */
  set data(data) {
    this.#data = data;
    const { recipes, drafts, runs, isAsking, bench, waits, link, week, copies, now } = data;
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
    const isFirst = !isAsking && isEmpty(data);
    show(parts.first, isFirst && !link.shut);
    if (isFirst && !parts.first.hasChildNodes()) this.#begin();
    this.#listMade();
    this.#lay();
  }

  /** While something is looked for, what was found stands in place of the lists. */
  #lay() {
    const { search, found, find, toMake, made } = this.#parts;
    const { recipes, made: batches, isAsking } = this.#data;
    const isLooking = search.value.trim() !== "";
    const hasAny = isAsking ? recipes.length > 0 : !isEmpty(this.#data);
    show(find, hasAny);
    show(found, isLooking);
    show(toMake, hasAny && !isLooking);
    show(made, batches.length > 0 && !isLooking);
    if (isLooking) this.#finding?.draw();
  }

  /** How to begin is for who has nothing yet; with the server gone it is asked for again at the next turn. */
  async #begin() {
    const module = await import("../parts/first-visit.js").catch(() => null);
    if (module) this.#parts.first.replaceChildren(module.firstVisit());
  }

  /** What the server has for these words; `says` instead when it could not be asked. @param {FoundThere} told */
  found(told) {
    this.#finding?.found(told);
  }

  /** Those with the tag that was chosen, of those in use or of the archived ones. */
  #listRecipes() {
    const { recipes, tags, allRecipes, archived } = this.#parts;
    const filed = this.#data.recipes.filter(({ archived_at: at }) => Boolean(at) === this.#isArchive);
    const known = [...new Set(filed.flatMap((each) => each.tags ?? []))].sort((a, b) => a.localeCompare(b));
    if (!known.includes(this.#tag)) this.#tag = "";
    keyed(
      tags,
      known,
      (tag) => tag,
      (tag) => this.#makeTag(tag),
      (node, tag) => setAttr(node, "aria-pressed", String(tag === this.#tag)),
    );
    show(tags, known.length > 0);
    const found = this.#tag ? filed.filter((each) => each.tags?.includes(this.#tag)) : filed;
    const seen = listed(found, this.#isWhole, allRecipes, say("page-recipes-all", { count: found.length }));
    keyed(recipes, seen, (recipe) => `${recipe.id} ${recipe.version} ${recipe.tags}`, makeRecipe);
    const others = this.#data.recipes.length - filed.length;
    setText(
      archived,
      this.#isArchive ? say("page-recipes-in-use") : say("page-recipes-archived", { count: others }),
    );
    show(archived, this.#isArchive || others > 0);
  }

  #listMade() {
    const { made } = this.#data;
    const { madeList, allMade } = this.#parts;
    const all = say("page-recipes-all-made", { count: made.length });
    const seen = listed(made, this.#isMadeWhole, allMade, all);
    keyed(madeList, seen, ({ id, number }) => `${id} ${number}`, makeMade);
  }

  /** @param {string} tag */
  #makeTag(tag) {
    const choose = () => {
      this.#tag = this.#tag === tag ? "" : tag;
      this.#listRecipes();
    };
    return h("button", { type: "button", class: "quiet tag", onclick: choose }, tag);
  }

  async #look() {
    this.#lay();
    const module = await import("../parts/find-all.js").catch(() => null); // a first visit, and the server gone since
    if (!module) return;
    this.#finding ??= new module.Finding(
      this.#parts.found,
      () => this.#data,
      (asked) => tell(this, "find-wanted", asked),
    );
    this.#finding.look(this.#parts.search.value.trim());
  }

  #build() {
    const parts = makeParts({
      update: () => tell(this, "update-wanted"),
      look: () => this.#look(),
      all: () => {
        this.#isWhole = true;
        this.#listRecipes();
      },
      archived: () => {
        this.#isArchive = !this.#isArchive;
        this.#listRecipes();
      },
      allMade: () => {
        this.#isMadeWhole = true;
        this.#listMade();
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
        parts.find,
        parts.found,
        parts.first,
        parts.toMake,
        parts.made,
      ),
    );
  }
}

/** @param {RecipesData} data */
const isEmpty = ({ recipes, runs, drafts }) => recipes.length + runs.length + drafts.length === 0;

/**
 * What stands of a list, and on the button beneath it what brings all; opening costs no more with many than with few.
 * @template T @param {readonly T[]} all @param {boolean} isWhole @param {Element} button @param {string} words
 */
function listed(all, isWhole, button, words) {
  const seen = isWhole ? all : all.slice(0, MOST_SEEN);
  setText(button, words);
  show(button, all.length > seen.length);
  return seen;
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
  const what = those([run.told.number, run.sheet.recipe.title]).join(", "); // two of one recipe lie side by side
  setText(first(words, 1), `${what}, ${pieces(run.size.pieces, run.sheet.piece)}`);
  // Copper is for the one thing to do now: the newest run.
  setAttr(first(link, 2), "class", isFirst ? "copper go" : "button outlined go");
  setAttr(
    link,
    "aria-label",
    say("page-recipes-go-on-with", { title: what, now: first(words).textContent ?? "" }),
  );
}

/** @param {RecipeRow} recipe */
function makeRecipe(recipe) {
  const { title, document, tags = [] } = recipe;
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
          [say("page-recipes-written-for", { pieces: pieces(document.written_for, piece) }), ...tags].join(
            ", ",
          ),
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

export const registerRecipesScreen = () => define("recipes-screen", RecipesScreen);
