// What is on the bench and what can be made: open runs with what they ask now, the recipes,
// and the runs that are done.
//
//   screen.data = { recipes, drafts, runs, bench: (runId) => now, waits, link, now }
//   "update-wanted"   the maker lets the newer page take over

import { define, h, keyed, setAttr, setText, show, tell } from "../parts/dom.js";
import { letterMark } from "../parts/hatch.js";
import { linkWords } from "../parts/link-mark.js";
import { mark } from "../parts/marks.js";
import { pageHead } from "../parts/page-head.js";
import { day, pieces } from "../parts/words.js";

const LETTERS = "ABCDEFGHIJKL";

class RecipesScreen extends HTMLElement {
  #parts = null;

  set data(data) {
    if (!this.#parts) this.#build();
    const { recipes, drafts, runs, bench, waits, link, now } = data;
    const parts = this.#parts;
    const open = runs.filter((run) => run.open);
    const made = runs.filter((run) => !run.open);

    setText(parts.link, linkWords(link));
    show(parts.link, parts.link.textContent !== "");
    show(parts.update, link.update);
    show(parts.bench, open.length > 0);
    parts.strip.data = { waits, now, here: open.length === 1 ? open[0].id : null };
    show(parts.strip, waits.length > 0);
    keyed(parts.open, open, (run) => run.id, makeOpenRun, (node, run, index) => writeOpenRun(node, run, bench(run.id), index === 0));
    keyed(parts.recipes, recipes, (recipe) => `${recipe.id} ${recipe.version}`, makeRecipe);
    keyed(parts.drafts, drafts, (draft) => draft.id, makeDraft, (node, draft) => writeDraft(node, draft, recipes.find(({ id }) => id === draft.id)));
    show(parts.none, recipes.length === 0);
    show(parts.made, made.length > 0);
    keyed(parts.madeList, made, (run) => run.id, makeMade);
  }

  #build() {
    const parts = {
      link: h("p", { class: "notice small" }),
      update: h("p", { class: "notice" }, "A newer page is ready. ", h("button", { type: "button", class: "outlined", onclick: () => tell(this, "update-wanted") }, "Use it")),
      strip: h("wait-strip"),
      open: h("ul", { class: "rows" }),
      recipes: h("ul", { class: "rows recipe-rows" }),
      drafts: h("ul", { class: "plain" }),
      none: h("p", { class: "soft" }, "No recipe is on this phone yet. They come when the studio's server answers."),
      madeList: h("ul", { class: "rows" }),
    };
    parts.bench = h("section", { "aria-label": "On the bench" }, h("h2", { class: "section-name" }, "On the bench"), parts.strip, parts.open);
    parts.made = h("section", { "aria-label": "Made" }, h("h2", { class: "section-name" }, "Made"), parts.madeList);
    parts.strip.addEventListener("wait-chosen", ({ detail }) => tell(this, "go-bench", detail));
    this.#parts = parts;
    this.append(
      h("div", { class: "sheet" }, pageHead("Bowlside", "recipes"), parts.link, parts.update, parts.bench, h("section", { "aria-label": "Recipes" }, h("h2", { class: "section-name" }, "To make"), parts.recipes, parts.none, parts.drafts, h("a", { class: "button quiet add-row", href: "#/recipe/new" }, "Write a new recipe"), h("a", { class: "button quiet", href: "#/bring" }, "Bring in a recipe")), parts.made),
    );
  }
}

function makeOpenRun(run) {
  return h(
    "li",
    {},
    h("a", { class: "row open-run", href: `#/bench/${run.id}` }, h("span", { class: "row-mark" }), h("span", { class: "row-words" }, h("b", { class: "row-title" }), h("span", { class: "soft small" })), h("span", { class: "go" }, "Go on")),
  );
}

function writeOpenRun(node, run, bench, isFirst) {
  const [box, words] = node.firstChild.children;
  const prompt = bench.prompts[0];
  if (box.dataset.letter !== (prompt?.letter ?? "A")) {
    box.dataset.letter = prompt?.letter ?? "A";
    box.replaceChildren(letterMark(box.dataset.letter));
  }
  setText(words.firstChild, prompt ? prompt.title : "Waiting");
  setText(words.lastChild, `${run.sheet.recipe.title}, ${pieces(run.size.pieces, run.sheet.piece)}`);
  // Copper is for the one thing to do now: the newest run.
  setAttr(node.firstChild.lastChild, "class", isFirst ? "copper go" : "button outlined go");
  setAttr(node.firstChild, "aria-label", `${run.sheet.recipe.title}: ${words.firstChild.textContent}. Go on`);
}

function makeRecipe(recipe) {
  const { title, document } = recipe;
  const piece = document.piece ?? { one: "piece", many: "pieces" };
  const parts = document.components.map((component, place) => h("li", {}, letterMark(LETTERS[place]), h("span", {}, component.name)));
  return h(
    "li",
    {},
    h(
      "a",
      { class: "row recipe", href: `#/size/${recipe.id}` },
      h("span", { class: "row-words" }, h("b", { class: "row-title recipe-title" }, title), document.summary ? h("span", { class: "recipe-summary" }, document.summary) : null, h("ul", { class: "part-names small" }, parts), h("span", { class: "soft small" }, `Written for ${pieces(document.written_for, piece)}`)),
      mark("next"),
    ),
  );
}

function makeDraft({ id }) {
  return h("li", {}, h("a", { class: "button quiet add-row", href: `#/recipe/${id}` }), h("p", { class: "notice small" }));
}

function writeDraft(node, draft, kept) {
  setText(node.firstChild, `Go on writing ${draft.document.title || "a new recipe"}`);
  let says = draft.send ? "It goes to the server when that answers." : "";
  if (draft.errors) says = "Not kept as a version: something in it cannot be read.";
  if (kept && kept.version !== draft.base) says = "Someone changed this recipe meanwhile. Yours is kept here as a draft.";
  setText(node.lastChild, says);
  show(node.lastChild, says !== "");
}

function makeMade(run) {
  return h(
    "li",
    {},
    h("a", { class: "row", href: `#/record/${run.id}` }, h("span", { class: "row-words" }, h("b", { class: "row-title" }, run.sheet.recipe.title), h("span", { class: "soft small" }, `${pieces(run.size.pieces, run.sheet.piece)}, finished ${day(run.state.finished_at)}`)), mark("next")),
  );
}

export const registerRecipesScreen = () => define("recipes-screen", RecipesScreen);
