// Trials of a recipe: variants with one change each, their batches side by side, and the one that becomes the recipe.
//
//   screen.data = { id, recipe, isOnline, newId }

import { define, given, h, setText, show } from "../parts/dom.js";
import { field } from "../parts/form.js";
import { FromServer } from "../parts/from-server.js";
import { askOnline } from "../parts/online.js";
import { valueWords } from "../parts/outcome-rows.js";
import { pageHead } from "../parts/page-head.js";
import { growing } from "../parts/recipe-fields.js";
import { say, sayAll } from "../words.js";
/** @import { Difference, VariantChange } from "../../bench/shapes/page" */
/** @import { RecipeRow } from "../../types/keep" */
/** @import { Trials, Variant } from "../../types/answers" */

const MOST = 5; // variants with a change at one time

/** @typedef {{id: string, recipe: RecipeRow, isOnline: boolean, newId: () => string}} TrialsData */
/**
 * A variant that is asked for; its id stays when it is asked again.
 * @typedef {{id: string, change: () => VariantChange}} Row
 */

export class TrialsScreen extends HTMLElement {
  /** @type {TrialsData} */
  #data = given();
  /** @type {Trials | null} */
  #told = null;
  #isAsking = false;
  #server = new FromServer(() => this.#ask("GET", ""));
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #said = h("p", { class: "soft small", role: "status" });
  #variants = h("div", { class: "versions" });
  #why = h("p", { class: "soft small", hidden: true }, say("page-trials-why"));
  #changes = h("div", { class: "stack" });
  /** @type {Row[]} */
  #rows = [];
  #asIs = ""; // the id of the first, which is the recipe as it is
  #more = h(
    "button",
    { type: "button", class: "quiet add-row", onclick: () => this.#add() },
    say("page-trials-more"),
  );
  #judges = Object.assign(growing(), { value: say("page-trials-usual") });
  #form = h("section", { class: "stack", "aria-label": say("page-trials-new") });

  /** @param {TrialsData} data */
  set data(data) {
    this.#data = data;
    if (!this.childElementCount) this.#build();
    this.#server.draw(data.isOnline);
  }

  #build() {
    const { id, recipe } = this.#data;
    this.append(
      h(
        "div",
        { class: "sheet stack" },
        pageHead(say("page-title-trials"), "", [`#/versions/${id}`, say("page-versions-title")]),
        h("p", {}, recipe.title),
        this.#trouble,
        this.#server.again,
        this.#said,
        this.#variants,
        this.#why,
        this.#form,
      ),
    );
  }

  /** @param {string} says */
  #fault(says) {
    setText(this.#trouble, says);
    show(this.#trouble, says !== "");
  }

  /** @param {"GET" | "POST"} method @param {string} more @param {unknown} [body] @returns {Promise<boolean>} */
  async #ask(method, more, body) {
    if (this.#isAsking) return false;
    this.#isAsking = true;
    const path = /** @type {const} */ (`/recipes/${this.#data.id}/trials${more}`);
    const told = await askOnline(this, method, path, body, method === "POST");
    this.#isAsking = false;
    this.#fault("says" in told ? told.says : "");
    if (method === "GET") this.#server.ended(!("says" in told));
    if ("says" in told) return false;
    if ("variants" in told) this.#write(told);
    return true;
  }

  /** @param {Trials} told */
  #write(told) {
    this.#told = told;
    this.#variants.replaceChildren(...told.variants.map((each) => this.#variant(each, told)));
    show(this.#why, told.variants.length > 1);
    this.#changes.replaceChildren();
    this.#rows = [];
    this.#asIs = this.#data.newId();
    this.#add();
    this.#form.replaceChildren(
      h("h2", { class: "section-name" }, say("page-trials-new")),
      h("p", { class: "soft" }, say("page-trials-as-it-is")),
      this.#changes,
      h("p", {}, this.#more),
      field(say("page-trials-judges"), this.#judges),
      h(
        "button",
        { type: "button", class: told.variants.length ? "outlined" : "copper", onclick: () => this.#try() },
        say("page-trials-try"),
      ),
    );
  }

  /** One change more: of what, and to what. */
  #add() {
    const choices = this.#told?.choices ?? [];
    const value = growing({ required: true });
    const whole = h("p", { class: "soft small", "aria-hidden": "true" }); // a narrow screen cuts a choice
    /** @type {HTMLSelectElement} */
    const of = h(
      "select",
      {
        onchange: () => {
          value.value = String(choices[of.selectedIndex].value);
          setText(whole, of.selectedOptions[0].label);
        },
      },
      choices.map(({ where, name, value: now }) =>
        h("option", { value: where }, say("page-trials-choice", { name, value: now })),
      ),
    );
    value.value = String(choices[0]?.value ?? "");
    setText(whole, of.selectedOptions[0]?.label ?? "");
    const change = () => {
      const { where, value: now } = choices[of.selectedIndex];
      const to = value.value.trim();
      if (where.startsWith("ingredients.")) return { where, value: { name: to } };
      return { where, value: typeof now === "number" && Number.isInteger(Number(to)) ? Number(to) : to };
    };
    this.#rows.push({ id: this.#data.newId(), change });
    this.#changes.append(
      h(
        "div",
        { class: "stack" },
        field(say("page-trials-of"), of),
        whole,
        field(say("page-trials-to"), value),
      ),
    );
    show(this.#more, this.#rows.length < MOST);
  }

  async #try() {
    const changed = this.#rows.map(({ id, change }) => ({ id, change: change() }));
    const variants = this.#told?.variants.length ? changed : [{ id: this.#asIs, change: null }, ...changed];
    const judges = this.#judges.value
      .split(",")
      .map((each) => each.trim())
      .filter(Boolean);
    const body = { version: this.#told?.version, judges, variants };
    if (await this.#ask("POST", "", body)) setText(this.#said, say("page-trials-made"));
  }

  /** @param {Variant} variant */
  async #win({ recipe, letter }) {
    const body = { variant: recipe, version: this.#told?.version };
    if (!(await this.#ask("POST", "/winner", body))) return;
    setText(this.#said, say("page-trials-won", { letter }));
    await this.#ask("GET", "");
  }

  /** @param {Variant} variant @param {Trials} told */
  #variant(variant, { version, variants }) {
    const { letter, changes, batches, differences, of_version: of, recipe } = variant;
    const rows = batches.map(({ run, number, figures: { judged } }) =>
      h(
        "li",
        {},
        h("a", { href: `#/record/${run}` }, number ?? say("page-figures-no-number")),
        ` ${variant.judges.map((each) => `${each}: ${judged[each] ?? "\u2013"}`).join(", ")}`,
      ),
    );
    return h(
      "section",
      { "aria-label": say("page-trials-variant", { letter }) },
      h("h2", {}, say("page-trials-variant", { letter })),
      h(
        "p",
        {},
        changes.length
          ? changes.map(({ where, what }) => `${where}: ${what}`).join(" ")
          : say("page-trials-unchanged"),
      ),
      of === version ? null : h("p", { class: "soft small" }, say("page-trials-former", { of, version })),
      h(
        "div",
        { class: "r-order" },
        h(
          "a",
          {
            class: `button ${variant === nextOf(variants) ? "copper" : "outlined"}`,
            href: `#/size/${recipe}/${variant.small_pieces}`,
          },
          say("page-trials-begin"),
        ),
        changes.length
          ? h(
              "button",
              {
                type: "button",
                class: "quiet",
                "aria-label": say("page-trials-win-of", { letter }),
                onclick: () => this.#win(variant),
              },
              say("page-trials-win"),
            )
          : null,
      ),
      variant.open ? h("p", { class: "soft small" }, say("page-trials-open", { count: variant.open })) : null,
      rows.length
        ? h("ul", { class: "plain" }, rows)
        : h("p", { class: "soft" }, say("page-trials-no-batch")),
      h("ul", { class: "plain small" }, differences.filter(({ now }) => now !== null).map(differenceRow)),
    );
  }
}

/** The first of which no batch was begun: to make one is what comes next. @param {readonly Variant[]} variants */
const nextOf = (variants) => variants.find(({ open, batches }) => !open && !batches.length);

/** @param {Difference} told */
function differenceRow({ measure, before, now, low, high, says, batches: [one, other] }) {
  return h(
    "li",
    {},
    h("b", {}, say("page-outcomes-measure", { measure })),
    " ",
    sayAll([
      before === null
        ? valueWords(measure, now ?? 0)
        : say("page-trials-beside", {
            now: valueWords(measure, now ?? 0),
            before: valueWords(measure, before),
          }),
    ]),
    ". ",
    say("page-outcomes-says", { says }),
    " ",
    low === null || high === null
      ? say("page-outcomes-batches", { before: one, now: other })
      : say("page-outcomes-between", { low: valueWords(measure, low), high: valueWords(measure, high) }),
  );
}

export const registerTrialsScreen = () => define("trials-screen", TrialsScreen);
