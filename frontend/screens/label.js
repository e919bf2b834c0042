// The label of one batch, drawn at true size: its ingredient list from what was really weighed, what was
// checked and what was not. Made to be printed.
//
//   screen.data = { run, recipe: measured, entries, runs, settings }

import { label } from "../bench/label.js";
import { record } from "../bench/record.js";
import { cardFor } from "../bench/shelf.js";
import { define, h, s, setText, show } from "../parts/dom.js";
import { drawLabel } from "../parts/label-plate.js";
import { pageHead } from "../parts/page-head.js";
import { stockOf } from "../parts/stock.js";

const SIZE = { market: "eu", shape: "rectangle", width_mm: 70, height_mm: 50 };
const SHAPES = [
  ["rectangle", "Flat: a box, a wrap"],
  ["cylinder", "Round: a jar, a tin; its width is all the way round"],
  ["other", "Another shape"],
];
const MARKETS = [
  ["us", "United States"],
  ["eu", "European Union"],
];
const MM = 1000; // in µm

class LabelScreen extends HTMLElement {
  #data = null;
  #inputs = null;
  #stage = h("div", { class: "label-stage" });
  #told = h("div", { class: "no-print", "aria-live": "polite" });
  #trouble = h("p", { class: "trouble no-print", role: "alert", hidden: true });

  set data(data) {
    const isSame = this.#data?.run.state === data.run.state && this.#data.entries === data.entries;
    this.#data = data;
    if (!this.#inputs) this.#build();
    if (!isSame) this.#draw();
  }

  connectedCallback() {
    if (this.#inputs) this.#draw();
  }

  #build() {
    const { settings, run } = this.#data;
    const given = { ...SIZE, ...settings.label };
    const again = () => this.#draw();
    const input = (props) => h("input", { autocomplete: "off", oninput: again, ...props });
    const number = (value, least, most) =>
      input({ type: "number", value: value ?? "", min: least, max: most, inputmode: "numeric" });
    const field = (name, control) => h("label", { class: "field" }, h("span", {}, name), control);
    const inputs = {
      width: number(given.width_mm, 10, 400),
      height: number(given.height_mm, 10, 400),
      shape: h(
        "select",
        { onchange: again },
        SHAPES.map(([value, says]) => h("option", { value, selected: value === given.shape }, says)),
      ),
      identity: input({ placeholder: run.sheet.recipe.title }),
      purpose: input({ placeholder: "bath bar" }),
      opened: number(given.opened_months, 1, 120),
      best: input({ type: "date" }),
      maker: h("textarea", { rows: 2, oninput: again }, settings.maker ?? ""),
      precautions: h("textarea", { rows: 2, oninput: again }),
    };
    this.#inputs = inputs;
    const market = ([value, says]) =>
      h(
        "label",
        { class: "way" },
        h("input", {
          type: "radio",
          name: "market",
          value,
          checked: value === given.market,
          onchange: again,
        }),
        h("span", {}, says),
      );
    this.append(
      h(
        "div",
        { class: "sheet label-sheet" },
        pageHead("Label", ""),
        h(
          "fieldset",
          { class: "ways no-print" },
          h("legend", { class: "unseen" }, "Sold in"),
          MARKETS.map(market),
        ),
        this.#stage,
        h(
          "p",
          { class: "label-measure small" },
          s("svg", { viewBox: "0 0 50 2", "aria-hidden": "true" }, s("rect", { width: 50, height: 2 })),
          "This bar is 50 mm at true size.",
        ),
        this.#trouble,
        h(
          "div",
          { class: "stack no-print" },
          h("button", { type: "button", class: "copper", onclick: () => print() }, "Print at true size"),
          h(
            "p",
            { class: "soft small" },
            "Some browsers print a little larger. Measure the printed bar. If it is not 50 mm, print " +
              "again at 5000 \u00f7 its mm, in per cent.",
          ),
        ),
        this.#told,
        h(
          "section",
          { class: "no-print stack label-form", "aria-label": "What stands on it" },
          h("h2", { class: "section-name" }, "What stands on it"),
          h("div", { class: "two" }, field("Width, mm", inputs.width), field("Height, mm", inputs.height)),
          field("What it goes on", inputs.shape),
          field("What it is", inputs.identity),
          field("What it is for", inputs.purpose),
          h(
            "div",
            { class: "two" },
            field("Good after opening, months", inputs.opened),
            field("Best before", inputs.best),
          ),
          field("Name and address", inputs.maker),
          field("Your own precautions, one a line", inputs.precautions),
        ),
      ),
    );
  }

  get #size() {
    const { width, height, shape } = this.#inputs;
    const fit = ({ value, min, max }) =>
      Math.min(Number(max), Math.max(Number(min), Math.round(Number(value) || 0)));
    return { shape: shape.value, width_mm: fit(width), height_mm: fit(height) };
  }

  #options(size) {
    const { run, recipe } = this.#data;
    const { shelf } = stockOf(this.#data);
    const { identity, purpose, opened, best, maker, precautions } = this.#inputs;
    const { balance } = record(run.sheet, run.state, run.entries);
    const cards = {};
    for (const [id, { name }] of Object.entries(recipe.ingredients)) {
      const key = cardFor(shelf, name);
      if (key !== null) cards[id] = shelf.ingredients[key].card;
    }
    return {
      cards,
      net_mg: balance?.weighed ? balance.piece_mg : undefined,
      identity: identity.value.trim(),
      function: purpose.value.trim(),
      opened_months: Number(opened.value) || null,
      best_before: best.value || null,
      maker: maker.value.trim() || null,
      precautions: precautions.value
        .split("\n")
        .map((line) => line.trim())
        .filter(Boolean),
      size: { shape: size.shape, width_um: size.width_mm * MM, height_um: size.height_mm * MM },
    };
  }

  /** Twice: once to see how high the letters come out, then with that judged by the rule. */
  #draw() {
    if (!this.isConnected) return;
    const { run, recipe } = this.#data;
    const size = this.#size;
    const market = this.querySelector("[name=market]:checked").value;
    const options = this.#options(size);
    const reckon = (letters) => label(recipe, run.sheet, run.state, market, { ...options, letters });
    const { letters, fits } = drawLabel(
      { ...reckon(undefined), function: options.function },
      size,
      this.#stage,
    );
    setText(
      this.#trouble,
      fits
        ? ""
        : "The words do not fit on a label of this size, however small: take a larger one, or a leaflet.",
    );
    show(this.#trouble, !fits);
    this.#told.replaceChildren(...said(reckon(letters)));
  }
}

const mm = (um) => `${(um / MM).toFixed(2)} mm`;
const sourced = ({ says, what, source }) =>
  h("li", {}, says ?? what, h("span", { class: "soft small" }, ` (${source})`));

function said({ heights, needs, warnings, checked, law, ingredients }) {
  const height = (name, { least_um: least, has_um: has, fits }) =>
    h(
      "li",
      { class: fits === false ? "short" : null },
      `Letters of the ${name}: a small o is ${mm(has)} high; ` +
        `${least === null ? "no least height is known here" : `the rule asks for ${mm(least)}`}`,
    );
  const unsure = ingredients.filter(({ sure }) => !sure).map(({ name }) => name);
  const missing = needs.filter(({ there }) => !there);
  const list = (title, rows) =>
    rows.length
      ? h(
          "section",
          { "aria-label": title },
          h("h2", { class: "section-name" }, title),
          h("ul", { class: "plain" }, rows),
        )
      : null;
  return [
    h("p", { class: "law" }, law),
    list(
      "Look at",
      [
        ...warnings.map(sourced),
        unsure.length ? h("li", {}, `Not sure of their places: ${unsure.join(", ")}`) : null,
      ].filter(Boolean),
    ),
    list("Still missing on it", missing.map(sourced)),
    list("Letters", [height("ingredient list", heights.list), height("net content", heights.net)]),
    list("What was checked", checked.map(sourced)),
  ].filter(Boolean);
}

export const registerLabelScreen = () => define("label-screen", LabelScreen);
