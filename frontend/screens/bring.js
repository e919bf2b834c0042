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
import { wellBuilt } from "../parts/well-built.js";
import { say, sayAll } from "../words.js";
/** @import { WrittenRecipe } from "../../bench/shapes/page" */
/** @import { RecipeRow } from "../../types/keep" */
/** @import { CheckAnswer } from "./recipe-edit.js" */

const LARGEST = 4 * 1024 * 1024;
const FORMAT = "bowlside-recipe/1";
const EXPORT = "bowlside-export/1";
const LEVELS = ["will_not_run", "look", "know"];

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
    "aria-label": say("page-bring-text"),
    placeholder: say("page-bring-text-hint"),
    spellcheck: "false",
  });
  /** @type {HTMLInputElement} */
  #file = h("input", {
    type: "file",
    accept: ".json,application/json",
    "aria-label": say("page-bring-file"),
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
        pageHead(say("page-title-bring"), ""),
        h("p", { class: "lead" }, say("page-bring-lead")),
        this.#file,
        this.#text,
        h(
          "button",
          { type: "button", class: "outlined", onclick: () => this.#read(this.#text.value) },
          say("page-bring-check"),
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
    if (file.size > LARGEST) return this.#no(say("page-bring-large-file", { name: file.name }));
    try {
      const text = await file.text();
      this.#text.value = text;
      this.#read(text);
    } catch {
      this.#no(say("page-bring-unread-file", { name: file.name }));
    }
  }

  /** @param {string} text @param {unknown} [file] what can be put right by hand all the same */
  #no(text, file) {
    this.#told.replaceChildren(...(file === undefined ? [] : [this.#mend(file)]));
    this.trouble(text);
  }

  /** @param {unknown} file */
  #mend(file) {
    const edit = () => tell(this, "document-edited", { document: wellBuilt(file) });
    return h("button", { type: "button", class: "outlined", onclick: edit }, say("page-bring-mend"));
  }

  /**
   * A recipe alone, as the server answers it (with its id), or a studio's whole file to pick one from.
   * @param {string} text
   */
  #read(text) {
    if (text.length > LARGEST) return this.#no(say("page-bring-large-text"));
    if (!text.trim()) return this.#no(say("page-bring-empty"));
    /** @type {unknown} */
    let file;
    try {
      file = JSON.parse(text);
    } catch (error) {
      const where = whereItEnds(text, error);
      return this.#no(say("page-bring-not-json", where), where.how === "no-text" ? undefined : text);
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
    if (newest.length === 0) return this.#no(say("page-bring-no-recipe"));
    if (newest.length === 1) return this.#look(newest[0]);
    this.trouble("");
    this.#told.replaceChildren(
      h("h2", {}, say("page-bring-which")),
      ...newest.map((each) =>
        h("button", { type: "button", class: "outlined", onclick: () => this.#look(each) }, each.title),
      ),
    );
  }

  /** @param {unknown} file */
  #look(file) {
    const { id, document: within } = fieldsIn(file);
    const written = within ?? file;
    if (!isRecipe(written)) return this.#no(say("page-bring-other-format", { format: FORMAT }), written);
    this.trouble("");
    this.#told.replaceChildren(h("p", { class: "soft" }, say("page-bring-checking")));
    this.#picked = { id: within && typeof id === "string" ? id : null, document: written };
    tell(this, "document-picked", { document: written });
  }

  /** @param {WrittenRecipe} written @param {CheckAnswer} answer */
  checked(written, { findings = [], errors, says }) {
    if (this.#picked?.document !== written) return;
    if (says) return this.#no(says);
    if (errors) {
      this.#told.replaceChildren(
        h("h2", {}, say("page-bring-cannot")),
        ...errors.map(({ field, detail }) => found("will_not_run", placeWords(written, field), detail)),
        this.#mend(written),
      );
      return;
    }
    this.#told.replaceChildren(
      h("h2", {}, written.title),
      h(
        "p",
        {},
        say("page-bring-parts", {
          names: sayAll(written.components.map(({ name }) => name)),
          count: written.written_for,
        }),
      ),
      ...LEVELS.flatMap((level) =>
        findings
          .filter((each) => each.level === level)
          .map(({ place, what, why, by, do: way, source }) =>
            found(level, place ?? "", what, by, why, way, source),
          ),
      ),
      findings.length ? "" : h("p", {}, say("page-bring-nothing-found")),
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
    if (!here) return [keep(null, say("page-bring-save"), "copper")];
    if (canonical(here.document) === canonical(written))
      return [h("p", {}, say("page-bring-same")), keep(null, say("page-bring-save-again"), "outlined")];
    return [
      h(
        "p",
        { class: "notice" },
        here.id === id
          ? say("page-bring-here-by-id", { name: here.title, version: here.version })
          : say("page-bring-here-by-name", { version: here.version }),
      ),
      keep(here, say("page-bring-as-version"), "outlined"),
      keep(null, say("page-bring-as-own"), "outlined"),
    ];
  }
}

/**
 * Where a text stops being JSON, for our own words: the browsers' differ and are not the maker's.
 * @param {string} text @param {unknown} error
 */
function whereItEnds(text, error) {
  const message = error instanceof Error ? error.message : "";
  if (/[\0\ufffd]/.test(text)) return { how: "no-text", line: 0 };
  const [, place] = /position (\d+)/.exec(message) ?? [];
  if (/\bend\b/.test(message)) return { how: "cut-off", line: 0 };
  return place === undefined
    ? { how: "other", line: 0 }
    : { how: "line", line: text.slice(0, Number(place)).split("\n").length };
}

/** @param {string} level @param {string} where @param {string} what @param {(string | undefined)[]} more */
function found(level, where, what, ...more) {
  const weight = say(`page-recipe-level-${level.replaceAll("_", "-")}`);
  return h(
    "div",
    { class: "found", "data-level": level },
    h("p", { class: "soft small" }, `${weight}: ${where}`),
    h("p", {}, h("b", {}, what)),
    more.filter(Boolean).map((text) => h("p", { class: "small" }, text)),
  );
}

export const registerBringScreen = () => define("bring-screen", BringScreen);
