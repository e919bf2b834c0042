// What to buy: for recipes chosen here and for what open batches still want, less the shelf and what is on order.
//
//   screen.data = { recipes, entries, today, asked: { recipe, pieces }, undoing, isGiven }
//   "online-asked"   "shelf-written" { entries, says }   screen.trouble("…")   screen.said("…")
//
// What was ordered stands here until it came; from there a delivery is brought in with its list filled in.

import { notBegun } from "../keep/week.js";
import { define, find, given, h, sameData, setText, show, tell } from "../parts/dom.js";
import { field } from "../parts/form.js";
import { askOnline } from "../parts/online.js";
import { pageHead } from "../parts/page-head.js";
import { amountOf, dayWords } from "../parts/stock.js";
import { askOrder } from "../parts/supply-forms.js";
import { undoPair } from "../parts/undo-pair.js";
import { about } from "../parts/words.js";
import { point, say, sayAll } from "../words.js";
/** @import { Buying, BuyingByHand, BuyingPacks, BuyingRow, BuyingUnjoined } from "../../bench/shapes/page" */
/** @import { OpenOrder, ReorderPoint } from "../../bench/shapes/page" */
/** @import { KeptEntry, RecipeRow, Undoing } from "../../types/keep" */

/** In an address, in place of a recipe: what the week wants. */
const WEEK = "week";

/**
 * @typedef {{recipes: readonly RecipeRow[], entries: readonly KeptEntry[], today: string,
 *   asked: {recipe: string, pieces: number}, undoing: Undoing, isGiven: (once: string) => boolean}} BuyingData
 * @typedef {{card: string, name: string, measure: "mg" | "count", much: number, packs: BuyingPacks | null,
 *   lead: number | null, facts: string[], by: string | null, isLate: boolean}} Lacking what is to be bought
 * @typedef {{recipe: HTMLSelectElement, pieces: HTMLInputElement, on: HTMLInputElement, node: HTMLElement}} Want
 */

export class BuyingScreen extends HTMLElement {
  /** @type {BuyingData} */
  #data = given();
  /** @type {readonly KeptEntry[] | null} */
  #entries = null;
  /** @type {Want[]} */
  #wants = [];
  /** @type {Buying | null} */
  #told = null;
  /** What was asked last: an answer to anything else is late. */
  #asked = {};
  #wanted = h("div", { class: "stack" });
  #list = h("div", { class: "stack" });
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #said = h("p", { class: "soft small", role: "status" });
  #undo = undoPair(this, (once) => this.#data.isGiven(once));

  /** @param {BuyingData} data */
  set data(data) {
    this.#data = data;
    if (!this.childElementCount) this.#build();
    this.#undo.write(data.undoing);
    if (data.entries === this.#entries) return;
    this.#entries = data.entries;
    void this.#ask();
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#trouble, text);
    show(this.#trouble, text !== "");
  }

  /** @param {string} text */
  said(text) {
    setText(this.#said, text);
  }

  #build() {
    const { asked, recipes, today } = this.#data;
    const known = recipes.find(({ id }) => id === asked.recipe);
    if (asked.recipe === WEEK) void this.#ofWeek();
    if (known) this.#add(known.id, asked.pieces || known.document.written_for, today);
    this.append(
      h(
        "div",
        { class: "sheet stack buying" },
        h(
          "div",
          { class: "no-print" },
          pageHead(say("page-title-buying"), "", ["#/shelf", say("page-title-shelf")]),
        ),
        h(
          "section",
          { class: "stack no-print", "aria-label": say("page-buying-for") },
          h("h2", { class: "section-name" }, say("page-buying-for")),
          h("p", { class: "soft small" }, say("page-buying-open-too")),
          this.#wanted,
          h(
            "button",
            { type: "button", class: "outlined", onclick: () => this.#more() },
            say("page-buying-add"),
          ),
        ),
        this.#trouble,
        this.#list,
        h("div", { class: "shelf-does no-print" }, this.#undo.undo, this.#undo.redo),
        this.#said,
      ),
    );
  }

  /** What the week that is followed makes on which day. */
  async #ofWeek() {
    const told = await askOnline(this, "GET", "/week");
    if ("says" in told) return this.trouble(told.says);
    const { followed, begun } = told;
    const open = notBegun(followed?.needs ?? [], begun);
    for (const { recipe, pieces, on } of open) this.#add(recipe, pieces, on);
    void this.#ask();
  }

  #more() {
    const [first] = this.#data.recipes;
    if (!first) return this.trouble(say("page-buying-no-recipe"));
    this.#add(first.id, first.document.written_for, this.#data.today).recipe.focus();
    void this.#ask();
  }

  /** @param {string} id @param {number} count @param {string} day */
  #add(id, count, day) {
    const again = () => this.#ask();
    const { recipes } = this.#data;
    const recipe = h(
      "select",
      { onchange: again },
      recipes.map((each) => h("option", { value: each.id, selected: each.id === id }, each.title)),
    );
    const pieces = h("input", {
      type: "number",
      inputmode: "numeric",
      min: 1,
      max: 10_000,
      value: count,
      onchange: again,
    });
    const on = h("input", { type: "date", value: day, onchange: again });
    const node = h(
      "div",
      { class: "buying-want" },
      field(say("page-buying-recipe"), recipe),
      field(say("page-buying-pieces"), pieces),
      field(say("page-buying-on"), on),
      h(
        "button",
        {
          type: "button",
          class: "quiet",
          onclick: () => {
            this.#wants = this.#wants.filter((each) => each !== want);
            node.remove();
            again();
          },
        },
        say("page-buying-remove"),
      ),
    );
    const want = { recipe, pieces, on, node };
    this.#wants.push(want);
    this.#wanted.append(node);
    return want;
  }

  async #ask() {
    const { today } = this.#data;
    const wants = this.#wants.map(({ recipe, pieces, on }) => ({
      recipe: recipe.value,
      pieces: Number(pieces.value),
      on: on.value,
    }));
    const wrong = wants.some(
      ({ pieces, on }) => !Number.isInteger(pieces) || pieces < 1 || pieces > 10_000 || !on,
    );
    if (wrong) return this.trouble(say("page-buying-need"));
    const asked = { wants, today };
    this.#asked = asked;
    const told = await askOnline(this, "POST", "/buying", asked);
    if (this.#asked !== asked) return;
    if ("says" in told) return this.trouble(told.says);
    this.trouble("");
    if (!sameData(told, this.#told)) this.#write(told);
  }

  /** @param {Buying} told */
  #write(told) {
    this.#told = told;
    const { rows, reorder, unjoined, by_hand, orders } = told;
    const lacking = lackingOf(told);
    const enough = rows.filter((row) => row.lacking === 0);
    const held = document.activeElement?.getAttribute("data-place");
    this.#list.replaceChildren(
      section(
        say("page-buying-to-buy"),
        lacking.length
          ? h(
              "ul",
              { class: "rows buying-rows" },
              lacking.map((each) => this.#lacking(each)),
            )
          : h("p", { class: "soft" }, say("page-buying-nothing")),
      ),
      lacking.length + unjoined.length + by_hand.length ? this.#handOn(told, lacking) : "",
      orders.length ? this.#orders(orders, rows) : "",
      unjoined.length
        ? section(
            say("page-buying-unjoined"),
            h(
              "ul",
              { class: "plain small" },
              unjoined.map((each) => h("li", {}, unjoinedWords(each))),
            ),
            h("a", { class: "button quiet no-print", href: "#/shelf" }, say("page-buying-to-cards")),
          )
        : "",
      by_hand.length
        ? section(
            say("page-buying-by-hand"),
            h(
              "ul",
              { class: "plain small" },
              by_hand.map((each) => h("li", {}, byHandWords(each))),
            ),
          )
        : "",
      enough.length || reorder.length
        ? h(
            "details",
            { class: "no-print" },
            h("summary", {}, say("page-buying-enough")),
            h(
              "ul",
              { class: "plain small" },
              enough.map((row) => h("li", {}, [row.name, ...factsOf(row)].join("; "))),
              reorder
                .filter(({ due }) => !due)
                .map((each) => h("li", {}, [each.name, ...pointWords(each)].join("; "))),
            ),
          )
        : "",
    );
    if (held) find(this.#list, `[data-place="${CSS.escape(held)}"]`)?.focus();
  }

  /** @param {Lacking} each */
  #lacking(each) {
    const { card, name, facts, by, isLate } = each;
    /** @type {HTMLInputElement} */
    const box = h("input", {
      type: "checkbox",
      "data-place": card,
      onchange: () => this.#order(each, box),
      "aria-label": say("page-buying-ordered-of", { name }),
    });
    return h(
      "li",
      { class: "buying-row" },
      h(
        "div",
        {},
        h("p", {}, h("b", { class: "figures" }, `${packsWords(each)} `), name),
        h(
          "p",
          { class: isLate ? "small past" : "small" },
          [by, each.packs ? priceWords(each.packs) : ""].filter(Boolean).join("; "),
        ),
        facts.map((fact) => h("p", { class: "soft small" }, fact)),
      ),
      h("label", { class: "choice no-print" }, box, h("span", {}, say("page-buying-ordered"))),
    );
  }

  /** @param {Lacking} each @param {HTMLInputElement} box */
  async #order({ card, name, measure, much, packs, lead }, box) {
    const said = await askOrder({
      card,
      name,
      amount: amountOf(
        { count: measure === "mg" ? null : 1 },
        packs ? packs.count * packs.each : bought(measure, much),
      ),
      supplier: packs?.supplier ?? "",
      due: daysAfter(this.#data.today, lead ?? 0),
    });
    box.checked = false;
    if (said) tell(this, "shelf-written", { entries: said, says: say("page-buying-saved-order") });
  }

  /** @param {readonly OpenOrder[]} orders @param {readonly BuyingRow[]} rows */
  #orders(orders, rows) {
    const { today } = this.#data;
    /** @type {Set<string>} */
    const came = new Set();
    const go = h("a", { class: "button copper", hidden: true });
    const write = () => {
      go.setAttribute("href", `#/delivery/${[...came].join(",")}`);
      setText(go, say("page-buying-bring", { count: came.size }));
      show(go, came.size > 0);
    };
    return section(
      say("page-buying-on-order"),
      h(
        "ul",
        { class: "rows buying-rows" },
        orders.map(({ order, name, mg, count, due, supplier }) => {
          const box = h("input", {
            type: "checkbox",
            "aria-label": say("page-buying-arrived-of", { name }),
            onchange: () => {
              came[box.checked ? "add" : "delete"](order);
              write();
            },
          });
          const isLate = due !== null && due < today;
          return h(
            "li",
            { class: "buying-row" },
            h(
              "div",
              {},
              h("p", {}, h("b", { class: "figures" }, `${amountOf({ count }, mg ?? count ?? 0)} `), name),
              h(
                "p",
                { class: isLate ? "small past" : "soft small" },
                [
                  supplier,
                  due && say(isLate ? "page-buying-was-due" : "page-buying-due", { day: dayWords(due) }),
                ]
                  .filter(Boolean)
                  .join(", "),
              ),
            ),
            h("label", { class: "choice no-print" }, box, h("span", {}, say("page-buying-arrived"))),
          );
        }),
      ),
      rows.map(({ name, measure, comes_late: late }) =>
        late
          ? h(
              "p",
              { class: "small past" },
              say("page-buying-comes-late", {
                name,
                amount: muchOf(measure, late),
              }),
            )
          : "",
      ),
      go,
    );
  }

  /**
   * All that is to be had or looked at, on paper or as text.
   * @param {Buying} told @param {readonly Lacking[]} lacking
   */
  #handOn({ unjoined, by_hand }, lacking) {
    const copy = async () => {
      const text = [
        ...lacking.map(lineOf),
        ...listed(say("page-buying-unjoined"), unjoined.map(unjoinedWords)),
        ...listed(say("page-buying-by-hand"), by_hand.map(byHandWords)),
      ].join("\n");
      try {
        await navigator.clipboard.writeText(text);
        this.said(say("page-buying-copied"));
      } catch {
        this.said(text); // not allowed here: shown, to be copied by hand
      }
    };
    return h(
      "div",
      { class: "shelf-does no-print" },
      h("button", { type: "button", class: "quiet", onclick: () => print() }, say("page-common-print")),
      h("button", { type: "button", class: "quiet", onclick: copy }, say("page-buying-copy")),
    );
  }
}

/** @param {string} title @param {(Node | string | (Node | string)[])[]} parts */
const section = (title, ...parts) =>
  h(
    "section",
    { class: "stack", "aria-label": title },
    h("h2", { class: "section-name" }, title),
    parts.flat(),
  );

/**
 * What lacks for what is planned, then what is low though nothing is; each once.
 * @param {Buying} told @returns {Lacking[]}
 */
function lackingOf({ rows, reorder }) {
  const wanted = rows.filter(({ lacking }) => lacking > 0);
  return [
    ...wanted.map((row) => ({
      ...row,
      much: row.lacking,
      lead: row.lead_days,
      by: byWords(row),
      isLate: row.late,
      facts: factsOf(row),
    })),
    ...reorder
      .filter(({ card, due }) => due && !wanted.some((row) => row.card === card))
      .map((each) => ({
        ...each,
        much: Math.max(1, (each.at ?? 0) - each.left - each.on_order),
        lead: each.lead_days,
        by: say("page-buying-low"),
        isLate: false,
        facts: pointWords(each),
      })),
  ];
}

/** @param {BuyingRow} row */
function byWords({ order_by: by, late, lead_days: lead, first_lacking_on: on }) {
  if (by === null || on === null) return null;
  if (late) return say("page-buying-too-late", { day: dayWords(by) });
  return lead === null
    ? say("page-buying-needed", { day: dayWords(on) })
    : say("page-buying-order-by", { day: dayWords(by) });
}

/** @param {BuyingRow} row */
function factsOf({ measure, wanted, free, on_order: coming, unusable }) {
  return [
    say("page-buying-wanted", { wanted: muchOf(measure, wanted), free: muchOf(measure, free) }),
    ...(coming ? [say("page-buying-coming", { amount: muchOf(measure, coming) })] : []),
    ...unusable.map(({ number, best_before: best }) =>
      say("page-buying-unusable", { number, day: best ? dayWords(best) : "" }),
    ),
  ];
}

/** @param {ReorderPoint} point */
function pointWords({ measure, left, at, by, batches, a_week: week }) {
  const there = say("page-buying-left", { amount: muchOf(measure, left) });
  if (at === null) return [there, say("page-buying-no-point", { count: batches })];
  return [
    there,
    by === "maker"
      ? say("page-buying-point-own", { amount: muchOf(measure, at) })
      : say("page-buying-point-use", { amount: muchOf(measure, at), week: muchOf(measure, week ?? 0) }),
  ];
}

/** @param {"mg" | "count"} measure @param {number} much */
const muchOf = (measure, much) => (measure === "mg" ? about(much) : amountOf({ count: much }, much));

/** Nobody buys a mg: a mass is rounded up to the gram. @param {"mg" | "count"} measure @param {number} much */
const bought = (measure, much) => (measure === "mg" ? Math.ceil(much / 1000) * 1000 : much);

/** "2 × 1000 g", or how much lacks where no pack is known. @param {Lacking} each */
function packsWords({ measure, much, packs }) {
  return packs
    ? `${packs.count} × ${amountOf({ count: measure === "mg" ? null : 1 }, packs.each)}`
    : muchOf(measure, bought(measure, much));
}

/** @param {BuyingPacks} packs */
function priceWords({ supplier, price, currency }) {
  const about = price && say("page-buying-about", { price: `${price.replace(".", point())} ${currency}` });
  return [supplier, about].filter(Boolean).join(", ");
}

/** A line of the list as text. @param {Lacking} each */
const lineOf = (each) =>
  [`${packsWords(each)} ${each.name}`, each.packs?.supplier, each.by].filter(Boolean).join("; ");

/** A list under its name, as text; nothing where it is empty. @param {string} name @param {readonly string[]} lines */
const listed = (name, lines) => (lines.length ? [`${name}:`, ...lines] : []);

/** @param {BuyingByHand} each */
const byHandWords = ({ name, recipes }) => `${name}: ${sayAll(recipes)}`;

/** @param {BuyingUnjoined} each */
function unjoinedWords({ name, recipes, maybe }) {
  const asks = Object.values(maybe);
  const says = say("page-buying-no-card", { name, titles: sayAll(recipes) });
  return [says, asks.length ? say("page-buying-maybe", { names: sayAll(asks) }) : ""].join(" ");
}

/** A day of the calendar, so many days on. @param {string} day @param {number} days */
const daysAfter = (day, days) =>
  new Date(Date.parse(`${day}T12:00Z`) + days * 86_400_000).toISOString().slice(0, 10);

export const registerBuyingScreen = () => define("buying-screen", BuyingScreen);
