// All finished batches in figures: small multiples, a table by pages, the whole as files. For makers, from the server.
//
//   screen.data = { id, recipes, isOnline }      id: the one recipe that is looked at, "" for all

import { define, given, h, setText, show } from "../parts/dom.js";
import { figure, least, MEASURES, panel, topOf } from "../parts/batch-panels.js";
import { field } from "../parts/form.js";
import { fileLink } from "../parts/hand-over.js";
import { FromServer } from "../parts/from-server.js";
import { askOnline } from "../parts/online.js";
import { pageHead } from "../parts/page-head.js";
import { dayOnly } from "../parts/words.js";
import { say } from "../words.js";
/** @import { RecipeRow } from "../../types/keep" */
/** @import { BatchItem, BatchPage, RecipeBatches } from "../../types/answers" */
/** @import { Measure } from "../parts/batch-panels.js" */

const PAGE = 30;
const DAY_MS = 86_400_000;

/** @typedef {{id: string, recipes: readonly RecipeRow[], isOnline: boolean}} FiguresData */

export class FiguresScreen extends HTMLElement {
  /** @type {FiguresData} */
  #data = given();
  /** @type {string | null} */
  #asked = null; // what is shown, or asked for
  #server = new FromServer(() => this.#begin());
  /** @type {Measure} */
  #measure = "hands";
  /** @type {BatchItem[]} */
  #batches = [];
  /** @type {RecipeBatches[]} */
  #recipes = [];
  #pages = { batches: 0, recipes: 0 };
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #recipe = h("select", {
    onchange: () => {
      location.hash = `#/figures/${this.#recipe.value}`;
    },
  });
  #version = h("select", { onchange: () => this.#server.anew() });
  #from = h("input", { type: "date", onchange: () => this.#server.anew() });
  #to = h("input", { type: "date", onchange: () => this.#server.anew() });
  #which = h(
    "select",
    { onchange: () => this.#choose() },
    MEASURES.map((measure) => h("option", { value: measure }, say("page-figures-measure", { measure }))),
  );
  #ofVersion = field(say("page-figures-version"), this.#version);
  #ofMeasure = field(say("page-figures-show"), this.#which);
  #panels = h("div", { class: "panels" });
  #legend = h("p", { class: "soft small" });
  #moreRecipes = this.#button(say("page-figures-more-recipes"), () => this.#askRecipes());
  #table = h("div", { class: "figures-table", tabindex: "0", role: "region" });
  #more = this.#button(say("page-figures-older"), () => this.#askBatches());
  #files = h("p", {});

  /** @param {FiguresData} data */
  set data(data) {
    const { id, recipes, isOnline } = data;
    const isNews = this.#data?.id !== id;
    this.#data = data;
    if (!this.childElementCount) this.#build();
    if (isNews) this.#offer(id, recipes);
    if (isNews && this.#asked !== null) this.#server.anew();
    this.#server.draw(isOnline);
  }

  #build() {
    this.append(
      h(
        "div",
        { class: "sheet stack" },
        pageHead(say("page-title-figures"), "", ["#/pieces", say("page-title-pieces")]),
        this.#trouble,
        this.#server.again,
        h(
          "div",
          { class: "figures-choice" },
          field(say("page-figures-recipe"), this.#recipe),
          this.#ofVersion,
          field(say("page-figures-from"), this.#from),
          field(say("page-figures-to"), this.#to),
          this.#ofMeasure,
        ),
        this.#panels,
        this.#legend,
        this.#moreRecipes,
        this.#table,
        this.#more,
        this.#files,
      ),
    );
  }

  /** @param {string} label @param {() => unknown} onclick */
  #button(label, onclick) {
    return h("button", { type: "button", class: "outlined", hidden: true, onclick }, label);
  }

  /** @param {string} id @param {readonly RecipeRow[]} recipes */
  #offer(id, recipes) {
    const known = recipes.find((each) => each.id === id);
    this.#recipe.replaceChildren(
      h("option", { value: "" }, say("page-figures-every")),
      ...[...recipes]
        .sort((one, two) => one.title.localeCompare(two.title))
        .map((each) => h("option", { value: each.id, selected: each.id === id }, each.title)),
    );
    const versions = Array.from({ length: known?.version ?? 0 }, (_, place) => place + 1).reverse();
    this.#version.replaceChildren(
      h("option", { value: "" }, say("page-figures-all-versions")),
      ...versions.map((number) => h("option", { value: number }, say("page-versions-version", { number }))),
    );
    show(this.#ofVersion, versions.length > 1);
    this.#ofMeasure.classList.add("wide");
    show(this.#ofMeasure, !id);
  }

  /** What is asked for, as the addresses have it. */
  #query() {
    const { id } = this.#data;
    const until = day(this.#to.value);
    const asked = {
      recipe: id,
      version: id && this.#version.value,
      finished_from: day(this.#from.value),
      finished_to: until && until + DAY_MS,
    };
    return new URLSearchParams(
      Object.entries(asked)
        .filter(([, value]) => value)
        .map(([name, value]) => [name, String(value)]),
    ).toString();
  }

  #begin() {
    [this.#batches, this.#recipes] = [[], []];
    this.#pages = { batches: 0, recipes: 0 };
    this.#asked = this.#query();
    this.#panels.replaceChildren(h("p", { class: "soft" }, say("page-common-asking")));
    this.#table.replaceChildren();
    for (const each of [this.#more, this.#moreRecipes, this.#legend, this.#files]) show(each, false);
    this.#askBatches();
    if (!this.#data.id) this.#askRecipes();
  }

  async #askBatches() {
    const asked = this.#asked;
    const page = this.#pages.batches + 1;
    const path = /** @type {const} */ (`/figures?${asked}&page_size=${PAGE}&page=${page}`);
    const told = await askOnline(this, "GET", path);
    if (asked !== this.#asked || page !== this.#pages.batches + 1) return;
    this.#server.ended(!("says" in told));
    if ("says" in told) return this.#say(told.says);
    this.#say("");
    this.#pages.batches = page;
    this.#batches.push(...told.batches);
    show(this.#more, page < told.pages);
    this.#write(told);
    if (this.#data.id) this.#draw();
  }

  async #askRecipes() {
    const asked = this.#asked;
    const page = this.#pages.recipes + 1;
    const told = await askOnline(this, "GET", /** @type {const} */ (`/figures/by-recipe?page=${page}`));
    if (asked !== this.#asked || page !== this.#pages.recipes + 1) return;
    if ("says" in told) return this.#say(told.says);
    this.#pages.recipes = page;
    this.#recipes.push(...told.recipes);
    show(this.#moreRecipes, page < told.pages);
    this.#draw();
  }

  /** @param {string} text */
  #say(text) {
    if (text) this.#panels.replaceChildren();
    setText(this.#trouble, text);
    show(this.#trouble, text !== "");
  }

  #choose() {
    this.#measure = MEASURES[this.#which.selectedIndex];
    this.#draw();
  }

  /** Of one recipe a panel a figure, each on its own scale; of all a panel a recipe, all on one. */
  #draw() {
    const { id } = this.#data;
    const last = this.#batches.slice(0, PAGE).reverse();
    const every = id ? last : this.#recipes.flatMap(({ batches }) => batches);
    const top = topOf(every, this.#measure);
    const panels = id
      ? MEASURES.map((measure) => {
          const [name, most] = [heading(measure, last), topOf(last, measure)];
          const scale = h("span", { class: "soft" }, say("page-figures-scale", { most }));
          return panel([name, " ", scale], name, last, measure, most);
        })
      : this.#recipes.map(({ recipe, title, batches }) =>
          panel(h("a", { href: `#/figures/${recipe}` }, title), title, batches, this.#measure, top),
        );
    this.#panels.replaceChildren(...(every.length ? panels : []));
    const isLeast = every.some((batch) => figure(batch, "cost")?.isLeast);
    const legend = [
      say(id ? "page-figures-dots-of-one" : "page-figures-dots", { most: top }),
      say("page-figures-lines"),
      isLeast && (id || this.#measure === "cost") ? say("page-figures-hollow") : "",
    ];
    setText(this.#legend, legend.filter(Boolean).join(" "));
    show(this.#legend, every.length > 0);
  }

  /** @param {BatchPage} told */
  #write({ total, parquet }) {
    const batches = this.#batches;
    if (!total) {
      this.#table.replaceChildren(
        h("p", { class: "soft" }, say(this.#asked ? "page-figures-none-here" : "page-figures-none")),
      );
      this.#panels.replaceChildren();
      return;
    }
    const caption = say("page-figures-table", { count: total });
    this.#table.setAttribute("aria-label", caption);
    this.#table.replaceChildren(
      h("h2", { class: "section-name" }, caption),
      h(
        "table",
        {},
        h(
          "thead",
          {},
          h(
            "tr",
            {},
            MEASURES.map((measure) => h("th", { scope: "col" }, heading(measure, batches))),
          ),
        ),
        batches.map((batch) => this.#rows(batch)),
      ),
    );
    this.#files.replaceChildren(
      fileLink(`/api/v1/figures.csv?${this.#asked}`, "batches.csv", "CSV"),
      parquet ? fileLink(`/api/v1/figures.parquet?${this.#asked}`, "batches.parquet", "Parquet") : "",
      h(
        "span",
        { class: "soft small" },
        [say("page-figures-units"), parquet ? "" : say("page-figures-no-parquet")].join(" "),
      ),
    );
    show(this.#files, true);
  }

  /** @param {BatchItem} batch */
  #rows(batch) {
    const {
      run,
      number,
      title,
      version,
      finished_at: at,
      pieces_good: good,
      pieces_planned: planned,
    } = batch;
    const about = [
      dayOnly(at),
      good === null ? say("page-figures-uncounted") : say("page-figures-good", { good, planned }),
      say("page-versions-version", { number: version }),
      ...(this.#data.id ? [] : [title]),
    ];
    return h(
      "tbody",
      {},
      h(
        "tr",
        {},
        h(
          "th",
          { scope: "rowgroup", colspan: MEASURES.length },
          h(
            "div",
            {},
            h("a", { href: `#/record/${run}` }, number ?? say("page-figures-no-number")),
            h("span", { class: "soft small" }, ` ${about.join(", ")}`),
          ),
        ),
      ),
      h(
        "tr",
        {},
        MEASURES.map((measure) => {
          const told = figure(batch, measure);
          const name = heading(measure, this.#batches);
          return h("td", { "data-name": name }, told ? least(told) : "\u2013");
        }),
      ),
    );
  }
}

/** The first instant of a day as a date field has it, by this device's zone; 0 for none. @param {string} value */
const day = (value) => (value ? new Date(`${value}T00:00`).getTime() : 0);

/**
 * A figure with its unit, and its currency where that is one.
 * @param {Measure} measure @param {readonly BatchItem[]} batches
 */
function heading(measure, batches) {
  const named = say("page-figures-measure", { measure });
  const currencies = new Set(batches.flatMap(({ cost }) => (cost ? [cost.currency] : [])));
  return measure === "cost" && currencies.size === 1 ? `${named}, ${[...currencies][0]}` : named;
}

export const registerFiguresScreen = () => define("figures-screen", FiguresScreen);
