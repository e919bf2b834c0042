// A recipe from a file or from pasted text. It is shown with its check before anything is kept;
// what was picked stays on the page until the maker says what becomes of it.
//
//   screen.data = { recipes }
//   "document-picked" { document }           screen.checked(document, { findings } | { errors } | { says })
//   "document-kept" { document, over }       over: the recipe it becomes a version of, or null
//   "document-edited" { document }           to be put right by hand

import { canonical } from "../bench/index.js";
import { define, h, setText, show, tell } from "../parts/dom.js";
import { pageHead } from "../parts/page-head.js";
import { placeWords } from "../parts/places.js";
import { fieldsOf } from "../parts/recipe-fields.js";
/** @import { WrittenRecipe } from "../../bench/shapes/page" */
/** @import { RecipeRow } from "../../types/keep" */
/** @import { CheckAnswer } from "./recipe-edit.js" */

const LARGEST = 4 * 1024 * 1024;
const FORMAT = "bowlside-recipe/1";
const EXPORT = "bowlside-export/1";
/** @type {{readonly [level: string]: string}} */
const LEVELS = { will_not_run: "Will not run", look: "Look at this", know: "Good to know" };

/** @typedef {{id: string | null, document: WrittenRecipe}} Picked */

/** What a file holds, where it holds named fields. @param {unknown} file @returns {{[field: string]: unknown}} */
const fieldsIn = (file) => fieldsOf(file) ?? {};

/**
 * A recipe by what it says of itself; the server checks the rest.
 * @param {unknown} document @returns {document is WrittenRecipe}
 */
const isRecipe = (document) => fieldsIn(document).format === FORMAT;

export class BringScreen extends HTMLElement {
  /** @type {readonly RecipeRow[]} */
  #recipes = [];
  #text = h("textarea", {
    "aria-label": "The recipe as text",
    placeholder: "or paste its JSON here",
    spellcheck: "false",
  });
  /** @type {HTMLInputElement} */
  #file = h("input", {
    type: "file",
    accept: ".json,application/json",
    "aria-label": "A recipe file",
    class: "bring-file",
    onchange: () => this.#open(),
  });
  #told = h("div", { class: "stack", "aria-live": "polite" });
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  /** @type {Picked | null} */
  #picked = null;

  /** @param {{recipes: readonly RecipeRow[]}} data */
  set data({ recipes }) {
    this.#recipes = recipes;
    if (this.childElementCount) return;
    this.append(
      h(
        "div",
        { class: "sheet stack" },
        pageHead("Bring in a recipe", ""),
        h("p", { class: "lead" }, "Nothing is kept until you have seen its check and say so."),
        this.#file,
        this.#text,
        h(
          "button",
          { type: "button", class: "outlined", onclick: () => this.#read(this.#text.value) },
          "Look at it",
        ),
        this.#trouble,
        this.#told,
      ),
    );
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#trouble, text);
    show(this.#trouble, text !== "");
  }

  async #open() {
    const [file] = this.#file.files ?? [];
    if (!file) return;
    if (file.size > LARGEST)
      return this.#no(
        `${file.name} is larger than 4 MB, which no recipe is. Pick the recipe\u2019s own file.`,
      );
    try {
      const text = await file.text();
      this.#text.value = text;
      this.#read(text);
    } catch {
      this.#no(`${file.name} could not be read. Pick it again.`);
    }
  }

  /** @param {string} text */
  #no(text) {
    this.#told.replaceChildren();
    this.trouble(text);
  }

  /**
   * A recipe alone, as the server answers it (with its id), or a studio's whole file to pick one from.
   * @param {string} text
   */
  #read(text) {
    if (text.length > LARGEST) return this.#no("This is more than 4 MB, which no recipe is.");
    if (!text.trim())
      return this.#no("There is nothing here yet. Pick a recipe\u2019s file, or paste what is in it.");
    /** @type {unknown} */
    let file;
    try {
      file = JSON.parse(text);
    } catch (error) {
      return this.#no(
        `This is not a recipe\u2019s file: ${whereItEnds(text, error)}. Pick the file as it was ` +
          "saved, or paste all of what is in it.",
      );
    }
    const { format, recipes } = fieldsIn(file);
    if (format === EXPORT && Array.isArray(recipes)) return this.#pick(recipes);
    this.#look(file);
  }

  /** A studio's file holds many recipes; each is looked at by itself. @param {readonly unknown[]} recipes */
  #pick(recipes) {
    const newest = recipes.map(fieldsIn).flatMap(({ id, versions }) => {
      const { document: written } = fieldsIn(Array.isArray(versions) ? versions.at(-1) : null);
      const { title } = fieldsIn(written);
      return title ? [{ id, document: written, title: String(title) }] : [];
    });
    if (newest.length === 0) return this.#no("This studio\u2019s file holds no recipe.");
    if (newest.length === 1) return this.#look(newest[0]);
    this.trouble("");
    this.#told.replaceChildren(
      h("h2", {}, "Which of these?"),
      ...newest.map((each) =>
        h("button", { type: "button", class: "outlined", onclick: () => this.#look(each) }, each.title),
      ),
    );
  }

  /** @param {unknown} file */
  #look(file) {
    const { id, document: within } = fieldsIn(file);
    const written = within ?? file;
    if (!isRecipe(written))
      return this.#no(
        `This is not a recipe of Bowlside\u2019s: one says "format": "${FORMAT}" and holds one recipe.`,
      );
    this.trouble("");
    this.#told.replaceChildren(h("p", { class: "soft" }, "Checking\u2026"));
    this.#picked = { id: within && typeof id === "string" ? id : null, document: written };
    tell(this, "document-picked", { document: written });
  }

  /** @param {WrittenRecipe} written @param {CheckAnswer} answer */
  checked(written, { findings = [], errors, says }) {
    if (this.#picked?.document !== written) return;
    if (says) return this.#no(says);
    if (errors) {
      this.#told.replaceChildren(
        h("h2", {}, "It cannot be read as it is"),
        ...errors.map(({ field, detail }) => found("will_not_run", placeWords(written, field), detail)),
        Array.isArray(written.components) && typeof written.ingredients === "object"
          ? h(
              "button",
              {
                type: "button",
                class: "outlined",
                onclick: () => tell(this, "document-edited", { document: written }),
              },
              "Put it right here",
            )
          : "",
      );
      return;
    }
    this.#told.replaceChildren(
      h("h2", {}, written.title),
      h(
        "p",
        {},
        `${written.components.map(({ name }) => name).join(", ")}. Written for ${written.written_for}.`,
      ),
      ...Object.keys(LEVELS).flatMap((level) =>
        findings
          .filter((each) => each.level === level)
          .map(({ place, what, why, by, do: way, source }) =>
            found(level, place ?? "", what, by, why, way, source),
          ),
      ),
      findings.length ? "" : h("p", {}, "The check finds nothing."),
      ...this.#answers(written),
    );
  }

  /**
   * What may become of it: a recipe that is here already is asked about, never written over.
   * @param {WrittenRecipe} written
   */
  #answers(written) {
    const id = this.#picked?.id;
    const here =
      this.#recipes.find((each) => each.id === id) ??
      this.#recipes.find(({ title }) => title === written.title);
    /** @param {RecipeRow | null} over @param {string} name @param {string} look */
    const keep = (over, name, look) =>
      h(
        "button",
        {
          type: "button",
          class: look,
          onclick: () => tell(this, "document-kept", { document: written, over }),
        },
        name,
      );
    if (!here) return [keep(null, "Keep it", "copper")];
    if (canonical(here.document) === canonical(written))
      return [
        h("p", {}, "This recipe is here already, word for word."),
        keep(null, "Keep it a second time", "outlined"),
      ];
    return [
      h(
        "p",
        { class: "notice" },
        here.id === id
          ? `Its file names a recipe that is here already: ${here.title}, version ${here.version}. `
          : `A recipe of this name is here already, version ${here.version}. `,
        "Which shall it be?",
      ),
      keep(here, "A new version of that recipe", "outlined"),
      keep(null, "A recipe of its own", "outlined"),
    ];
  }
}

/**
 * Where a text stops being JSON, in our words: the browsers' own differ and are not the maker's.
 * @param {string} text @param {unknown} error
 */
function whereItEnds(text, error) {
  const message = error instanceof Error ? error.message : "";
  if (/[\0\ufffd]/.test(text)) return "it is not text";
  const [, place] = /position (\d+)/.exec(message) ?? [];
  if (/\bend\b/.test(message)) return "it breaks off";
  return place === undefined
    ? "it is not JSON, the form in which recipes are handed on"
    : `it cannot be read past line ${text.slice(0, Number(place)).split("\n").length}`;
}

/** @param {string} level @param {string} where @param {string} what @param {(string | undefined)[]} more */
function found(level, where, what, ...more) {
  return h(
    "div",
    { class: "found", "data-level": level },
    h("p", { class: "soft small" }, `${LEVELS[level]}: ${where}`),
    h("p", {}, h("b", {}, what)),
    more.filter(Boolean).map((text) => h("p", { class: "small" }, text)),
  );
}

export const registerBringScreen = () => define("bring-screen", BringScreen);
