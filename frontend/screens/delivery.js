// A list from a supplier: pasted or from a file, read by the server, looked at row by row, then put on the shelf.
//
//   screen.data = { today, currency, newId, entries, came }     // came: orders that arrived, filled in here
//   "list-given" { list }           screen.told(list, delivery or { says })
//   "shelf-written" { entries }     once the maker says so, and nothing of it is open

import { define, find, given, h, setText, show, tell } from "../parts/dom.js";
import { field } from "../parts/form.js";
import { pageHead } from "../parts/page-head.js";
import { amountOf, dayWords, shelfOf } from "../parts/stock.js";
import { unbroken } from "../parts/words.js";
import { point, say } from "../words.js";
/** @import { Delivery, DeliveryField, DeliveryQuestion, DeliveryRow } from "../../bench/shapes/page" */
/** @import { OrderedBody, WrittenDelivery } from "../../bench/shapes/page" */
/** @import { KeptEntry, ShelfSaid } from "../../types/keep" */

const LARGEST = 200_000;
const WRITTEN = /** @type {const} */ (["name", "amount", "number", "best_before", "price"]);
/** @type {DeliveryField[]} */
const FIELDS = ["nothing", ...WRITTEN, "unit", "packs", "unit_price", "currency", "inci", "cas"];

/**
 * @typedef {{today: string, currency: string, newId: () => string, entries: readonly KeptEntry[],
 *   came: readonly string[]}} DeliveryData
 * @typedef {{-readonly [F in keyof WrittenDelivery]: WrittenDelivery[F]}} Draft
 */

export class DeliveryScreen extends HTMLElement {
  /** @type {DeliveryData} */
  #data = given();
  /** What the maker answered, by row and field. @type {{[place: string]: string}} */
  #answers = {};
  /** @type {DeliveryField[] | null} */
  #columns = null;
  /** @type {Delivery | null} */
  #read = null;
  /** @type {Set<number>} */
  #open = new Set();
  #text = h("textarea", { rows: 6, spellcheck: "false", placeholder: say("page-delivery-text-hint") });
  #supplier = h("input", { autocomplete: "off" });
  #received = h("input", { type: "date" });
  #currency = h("input", { maxlength: 3, autocomplete: "off", placeholder: "EUR" });
  #measures = h(
    "select",
    {},
    ["", "us", "imperial", "metric"].map((value) =>
      h("option", { value }, say("page-delivery-measures", { measures: value })),
    ),
  );
  #cost = h("input", {
    inputmode: "decimal",
    autocomplete: "off",
    placeholder: say("page-shelf-price-hint"),
  });
  #by = h(
    "select",
    {},
    ["value", "mass"].map((value) => h("option", { value }, say("page-delivery-by", { by: value }))),
  );
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #said = h("p", { class: "soft small", role: "status" });
  #told = h("div", { class: "stack" });
  #put = h("button", { type: "button", class: "copper", hidden: true, onclick: () => this.#enter() });

  /** @param {DeliveryData} data */
  set data(data) {
    this.#data = data;
    if (this.childElementCount) return;
    this.#received.value = data.today;
    this.#currency.value = data.currency;
    this.#fill(data);
    /** @type {HTMLInputElement} */
    const file = h("input", {
      type: "file",
      accept: ".csv,.tsv,.txt,text/csv,text/plain",
      class: "bring-file",
      "aria-label": say("page-delivery-file"),
      onchange: () => this.#openFile(file),
    });
    /** @param {Node[]} both */
    const two = (...both) => h("div", { class: "two" }, both);
    this.append(
      h(
        "div",
        { class: "sheet stack" },
        pageHead(say("page-title-delivery"), ""),
        h("p", { class: "lead" }, say("page-delivery-lead")),
        file,
        field(say("page-delivery-text"), this.#text),
        two(
          field(say("page-shelf-supplier"), this.#supplier),
          field(say("page-shelf-received-on"), this.#received),
        ),
        two(
          field(say("page-shelf-currency"), this.#currency),
          field(say("page-delivery-whose"), this.#measures),
        ),
        two(field(say("page-delivery-cost"), this.#cost), field(say("page-delivery-shared"), this.#by)),
        h(
          "button",
          { type: "button", class: "outlined", onclick: () => this.#start() },
          say("page-delivery-look"),
        ),
        this.#trouble,
        this.#told,
        this.#put,
        this.#said,
      ),
    );
  }

  /** What was ordered, as a list of it. @param {DeliveryData} data */
  #fill({ entries, came }) {
    const { ingredients } = shelfOf(entries);
    const orders = entries.flatMap(({ id, kind, body }) =>
      kind === "ordered" && came.includes(id)
        ? [/** @type {OrderedBody} */ (/** @type {unknown} */ (body))]
        : [],
    );
    if (!orders.length) return;
    const rows = orders.map(({ ingredient, mg, count }) => [
      ingredients[ingredient]?.card?.name ?? ingredient,
      mg === undefined ? say("page-shelf-pieces", { count: count ?? 0 }) : `${mg / 1000} g`,
    ]);
    const heads = ["name", "amount"].map((column) => say("page-delivery-field", { field: column }));
    this.#text.value = [heads, ...rows].map((cells) => cells.join("\t")).join("\n");
    const suppliers = new Set(orders.map(({ supplier = "" }) => supplier));
    this.#supplier.value = suppliers.size === 1 ? [...suppliers][0] : "";
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#trouble, text);
    show(this.#trouble, text !== "");
    this.#put.disabled = !this.#read?.entries.length;
  }

  /** The lots are on the shelf: the list is done with. @param {string} text */
  said(text) {
    this.#text.value = "";
    this.#cost.value = "";
    this.#forget();
    this.#said.replaceChildren(text, " ", h("a", { href: "#/shelf" }, say("page-delivery-to-shelf")));
  }

  #forget() {
    this.#answers = {};
    this.#columns = null;
    this.#read = null;
    this.#open.clear();
    this.trouble("");
    setText(this.#said, "");
    this.#told.replaceChildren();
    show(this.#put, false);
  }

  /** @param {HTMLInputElement} file */
  async #openFile({ files }) {
    const [picked] = files ?? [];
    if (!picked) return;
    try {
      this.#text.value = readable(new Uint8Array(await picked.arrayBuffer()));
      this.#start();
    } catch {
      this.trouble(say("page-bring-unread-file", { name: picked.name }));
    }
  }

  #start() {
    this.#forget();
    const { length } = this.#text.value;
    if (!this.#text.value.trim()) return this.trouble(say("page-delivery-empty"));
    if (length > LARGEST) return this.trouble(say("page-delivery-large"));
    if (!this.#received.value) return this.trouble(say("page-shelf-need-day"));
    this.#ask();
  }

  /** The list as it stands, with what was answered. @returns {WrittenDelivery} */
  get #list() {
    /** @type {Draft} */
    const list = {
      text: this.#text.value,
      received_on: this.#received.value,
      supplier: this.#supplier.value.trim(),
      currency: this.#currency.value.trim().toUpperCase(),
      delivery: this.#cost.value.trim(),
      shared_by: this.#by.value === "mass" ? "mass" : "value",
      answers: { ...this.#answers },
    };
    const { value } = this.#measures;
    if (value === "us" || value === "imperial" || value === "metric") list.measures = value;
    if (this.#columns) list.columns = this.#columns;
    return list;
  }

  #ask() {
    tell(this, "list-given", { list: this.#list });
  }

  /** @param {number} row @param {string} part @param {string} text */
  #answer(row, part, text) {
    this.#answers[`${row}.${part}`] = text;
    this.#ask();
  }

  /**
   * What the server read; nothing, where another answer was given since.
   * @param {WrittenDelivery} list @param {Delivery | {says: string}} told
   */
  told(list, told) {
    if (JSON.stringify(list) !== JSON.stringify(this.#list)) return;
    if ("says" in told) return this.trouble(told.says);
    this.trouble("");
    this.#read = told;
    const { columns, heads, rows, questions, open } = told;
    if (!this.#cost.value.trim()) this.#cost.placeholder = told.delivery || say("page-shelf-price-hint");
    const focused = document.activeElement?.getAttribute("data-place");
    this.#told.replaceChildren(
      columns.length ? this.#columnsOf(columns, heads) : "",
      h(
        "ul",
        { class: "rows delivery-rows", "aria-label": say("page-delivery-rows") },
        rows.map((row) => this.#row(row)),
      ),
      ...questions.map(({ says }) => h("p", { class: "trouble" }, says)),
    );
    if (focused) find(this.#told, `[data-place="${CSS.escape(focused)}"]`)?.focus();
    const lots = rows.filter(({ out }) => !out).length;
    setText(
      this.#put,
      open ? say("page-delivery-open", { count: open }) : say("page-delivery-put", { count: lots }),
    );
    this.#put.disabled = open > 0 || lots === 0;
    show(this.#put, true);
  }

  /** What each column was taken for. @param {readonly DeliveryField[]} columns @param {readonly string[]} heads */
  #columnsOf(columns, heads) {
    return h(
      "details",
      { class: "delivery-columns" },
      h("summary", {}, say("page-delivery-columns")),
      h(
        "div",
        { class: "stack" },
        columns.map((column, place) => {
          const pick = h(
            "select",
            {
              "data-place": `column.${place}`,
              onchange: () => {
                const now = [...(this.#columns ?? columns)];
                now[place] = FIELDS.find((each) => each === pick.value) ?? "nothing";
                this.#columns = now;
                this.#ask();
              },
            },
            FIELDS.map((value) =>
              h(
                "option",
                { value, selected: value === column },
                say("page-delivery-field", { field: value }),
              ),
            ),
          );
          return field(heads[place] || say("page-delivery-column", { number: place + 1 }), pick);
        }),
      ),
    );
  }

  /** @param {DeliveryRow} row */
  #row(row) {
    const { row: place, name, card_name: card, out, questions } = row;
    const leave = h(
      "button",
      {
        type: "button",
        class: "quiet",
        "data-place": `${place}.row`,
        "aria-label": say(out ? "page-delivery-take-row" : "page-delivery-leave-row", { name }),
        onclick: () => this.#answer(place, "row", out ? "in" : "out"),
      },
      say(out ? "page-delivery-take" : "page-delivery-leave"),
    );
    if (out)
      return h(
        "li",
        { class: "delivery-row out" },
        h("span", { class: "soft" }, Object.values(row.cells).slice(0, 3).join(" ") || name),
        leave,
      );
    return h(
      "li",
      { class: "delivery-row" },
      h(
        "p",
        {},
        h("b", {}, name || say("page-delivery-nameless")),
        " ",
        h(
          "span",
          { class: "soft small" },
          card === null ? say("page-delivery-new") : say("page-delivery-is", { name: card }),
        ),
      ),
      h("p", {}, unbroken(factsOf(row))),
      questions.map((asked) => this.#question(place, asked)),
      this.#fields(row),
      leave,
    );
  }

  /** @param {number} place @param {DeliveryQuestion} asked */
  #question(place, { field: part, says, choices }) {
    return h(
      "div",
      { class: "delivery-asks" },
      h("p", { class: "trouble" }, says),
      choices.map((choice) =>
        h(
          "button",
          {
            type: "button",
            class: "outlined small",
            "data-place": `${place}.${part}.${choice}`,
            onclick: () => this.#answer(place, part, choice),
          },
          this.#choiceWords(place, part, choice),
        ),
      ),
    );
  }

  /** @param {number} place @param {string} part @param {string} choice */
  #choiceWords(place, part, choice) {
    if (part === "had") return say("page-delivery-again");
    if (part === "best_before") return dayWords(choice);
    if (part.startsWith("cell.")) return say("page-delivery-field", { field: choice });
    if (part !== "card") return choice.replace(/(\d)\.(?=\d)/g, `$1${point()}`);
    if (choice === "new") return say("page-delivery-other");
    return say("page-delivery-same", { name: this.#read?.rows[place]?.choices[choice] ?? choice });
  }

  /** A row as it is written, to be put right. @param {DeliveryRow} row */
  #fields({ row: place, cells, name }) {
    /** @type {HTMLDetailsElement} */
    const details = h(
      "details",
      {
        open: this.#open.has(place),
        ontoggle: () => this.#open[details.open ? "add" : "delete"](place),
      },
      h("summary", { "aria-label": say("page-delivery-change-row", { name }) }, say("page-delivery-change")),
      h(
        "div",
        { class: "stack" },
        WRITTEN.map((part) => {
          /** @type {HTMLInputElement} */
          const input = h("input", {
            autocomplete: "off",
            value: cells[part] ?? "",
            "data-place": `${place}.${part}`,
            onchange: () => this.#answer(place, part, input.value.trim()),
          });
          return field(say("page-delivery-field", { field: part }), input);
        }),
      ),
    );
    return details;
  }

  #enter() {
    const { newId } = this.#data;
    if (!this.#read || this.#read.open) return;
    const entries = this.#read.entries.map((each) =>
      each.kind === "received" ? { kind: each.kind, body: { lot: newId(), ...each.body } } : each,
    );
    this.#put.disabled = true; // until it is said that they are there
    const arrived = this.#data.came.map((order) => ({ kind: "arrived", body: { order } }));
    tell(this, "shelf-written", {
      entries: /** @type {readonly ShelfSaid[]} */ ([...entries, ...arrived]),
      says: say("page-delivery-entered", { count: entries.filter(({ kind }) => kind === "received").length }),
    });
  }
}

/** What a row was read as: "1000 g; lot A-7; best before 31 Mar 2028; 12.50 EUR". @param {DeliveryRow} row */
function factsOf({ mg, count, number, best_before: best, price }) {
  const much = mg ?? count;
  return [
    much === null ? "" : amountOf({ count }, much),
    number ? say("page-delivery-lot", { number }) : "",
    best ? say("page-shelf-best-before", { day: dayWords(best) }) : "",
    price ? paidWords(price) : "",
  ]
    .filter(Boolean)
    .join("; ");
}

/** @param {{amount: string, currency: string, delivery?: string}} price */
function paidWords({ amount, currency, delivery }) {
  const money = (/** @type {string} */ kept) => `${kept.replace(".", point())} ${currency}`;
  return delivery
    ? say("page-delivery-paid", { price: money(amount), delivery: money(delivery) })
    : money(amount);
}

/**
 * The text of a file: what spreadsheets write is UTF-8, UTF-16 with its mark, or Windows' own.
 * @param {Uint8Array} bytes
 */
function readable(bytes) {
  const [one, other] = bytes;
  if (one === 0xff && other === 0xfe) return new TextDecoder("utf-16le").decode(bytes);
  if (one === 0xfe && other === 0xff) return new TextDecoder("utf-16be").decode(bytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

export const registerDeliveryScreen = () => define("delivery-screen", DeliveryScreen);
