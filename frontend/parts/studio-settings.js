// The studio's own words and money: batch numbers, currency and rates, and what stands on labels.
//
//   const form = settingsForm(settings, isMaker);    // form.node tells "settings-written" { document }
//   form.news(settings, isMaker);                    // saved elsewhere: what is being written stays
//   form.saved();                                    // by this form, once news of it has come

import { decimalMoney } from "../bench/amounts.js";
import { checkPattern } from "../bench/batch-number.js";
import { BenchError } from "../bench/errors.js";
import { h, setText, show, tell } from "./dom.js";
import { OwnDraft } from "./own-draft.js";
import { point, say } from "../words.js";
/** @import { Props } from "../../types/dom" */
/** @import { Control } from "../../types/parts" */
/** @import { SettingsDocument } from "../../types/server" */

/** What is saved, by the key of its field. @param {SettingsDocument} given */
function savedOf({
  batch_number: pattern,
  currency,
  hourly_rate: rate,
  wrap_cost: wrap,
  without_tax: bare,
  before = [],
  maker,
  label = {},
  ...more
}) {
  const { width_mm: width = 70, height_mm: height = 50, market = "eu", opened_months: months = "" } = label;
  return {
    pattern: pattern ?? "",
    currency: currency ?? "",
    rate: rate ?? "",
    wrap: wrap ?? "",
    bare: Boolean(bare),
    cleaned: before.includes("cleaned"),
    cleared: before.includes("cleared"),
    .../** @type {{[K in More]: string}} */ (
      Object.fromEntries(MORE.map((key) => [key, String(more[key] ?? "")]))
    ),
    maker: maker ?? "",
    width: String(width),
    height: String(height),
    market,
    months: String(months),
  };
}

/** What else a batch costs, and a price takes: money or a share as text, or whole minutes and seconds. */
const MORE = /** @type {const} */ ([
  "packaging_cost",
  "sprays_cost",
  "overhead_cost",
  "cleaning_minutes",
  "labelling_seconds",
  "fee_percent",
  "fee_each",
  "margin_percent",
  "tax_percent",
]);
/** @typedef {(typeof MORE)[number]} More */
/** @param {More} key */
const isWhole = (key) => key === "cleaning_minutes" || key === "labelling_seconds";

const CLEANED = /** @type {const} */ ("cleaned");
const CLEARED = /** @type {const} */ ("cleared");
const MARKETS = /** @type {const} */ (["us", "eu", "uk"]);

/**
 * A document with these fields, less those of them that are empty, nought or not ticked.
 * @template {object} T @param {T} known @param {Partial<T>} said
 */
const having = (known, said) =>
  /** @type {T} */ (
    Object.fromEntries(
      Object.entries({ ...known, ...said }).filter(([key, value]) => value || !(key in said)),
    )
  );

/**
 * Money as it is written in a field; throws an error with `says`.
 * @param {HTMLInputElement} input @param {string} key
 */
const money = (input, key) => decimalMoney(input.value.trim(), key);

/** @param {SettingsDocument} settings @param {boolean} isMaker */
export function settingsForm(settings, isMaker) {
  const draft = new OwnDraft();
  const saved = savedOf(settings);
  let known = settings;
  /** @param {Props<HTMLInputElement>} [props] */
  const text = (props = {}) => h("input", { autocomplete: "off", ...props });
  const pattern = text();
  const currency = text({ maxlength: 3, placeholder: "EUR" });
  const rate = text({ inputmode: "decimal", placeholder: `18${point()}00` });
  const wrap = text({ inputmode: "decimal", placeholder: `0${point()}12` });
  const inputs = MORE.map(
    (key) =>
      /** @type {const} */ ([
        key,
        isWhole(key)
          ? text({
              type: "number",
              inputmode: "numeric",
              min: 0,
              max: key === "cleaning_minutes" ? 1440 : 3600,
            })
          : text({ inputmode: "decimal" }),
      ]),
  );
  const cleaned = h("input", { type: "checkbox" });
  const cleared = h("input", { type: "checkbox" });
  const bare = h("input", { type: "checkbox" });
  const maker = h("textarea", { rows: 3 });
  const number = () => text({ type: "number", inputmode: "numeric", min: 10, max: 400 });
  const width = number();
  const height = number();
  const market = h(
    "select",
    {},
    MARKETS.map((value) => h("option", { value }, say("page-studio-market-name", { market: value }))),
  );
  const months = text({ type: "number", inputmode: "numeric", min: 1, max: 120 });
  const trouble = h("p", { class: "trouble", role: "alert", hidden: true });

  /** What is written, with what this form does not know left as it was; throws an error with `says`. */
  const read = () => {
    const batch_number = pattern.value.trim();
    checkPattern(batch_number);
    const label = having(known.label ?? {}, {
      width_mm: Number(width.value),
      height_mm: Number(height.value),
      opened_months: Number(months.value),
    });
    const document = having(known, {
      currency: currency.value.trim().toUpperCase(),
      hourly_rate: money(rate, "hourly_rate"),
      wrap_cost: money(wrap, "wrap_cost"),
      without_tax: bare.checked,
      before: [...(cleaned.checked ? [CLEANED] : []), ...(cleared.checked ? [CLEARED] : [])],
      ...Object.fromEntries(
        inputs.map(([key, input]) => [key, isWhole(key) ? Number(input.value) : money(input, key)]),
      ),
      maker: maker.value.trim(),
    });
    const sold = MARKETS.find((each) => each === market.value) ?? "eu";
    return { ...document, batch_number, label: { ...label, market: sold } };
  };

  /** @param {string} name @param {keyof typeof saved} key @param {Control} control @param {string} [says] */
  const field = (name, key, control, says = "") =>
    h(
      "label",
      { class: "field" },
      h("span", {}, name),
      control,
      says ? h("span", {}, says) : null,
      draft.own(key, control, saved[key]),
    );
  const fields = h(
    "fieldset",
    { class: "stack" },
    field(
      say("page-studio-pattern"),
      "pattern",
      pattern,
      say("page-studio-pattern-says", {
        fields: "{yyyy} {yy} {mm} {dd} {recipe}",
        mark: "{mark}",
        number: "{n}",
      }),
    ),
    h(
      "div",
      { class: "pair" },
      field(say("page-studio-currency"), "currency", currency),
      field(say("page-studio-rate"), "rate", rate),
    ),
    h(
      "div",
      { class: "pair" },
      field(say("page-studio-wrap"), "wrap", wrap),
      h(
        "label",
        { class: "choice" },
        bare,
        h("span", {}, say("page-studio-no-tax")),
        draft.own("bare", bare, saved.bare),
      ),
    ),
    h(
      "details",
      { class: "about" },
      h("summary", {}, say("page-studio-cost-more")),
      h(
        "div",
        { class: "stack" },
        inputs.map(([key, input]) => field(say(`page-studio-cost-${key}`), key, input)),
      ),
    ),
    h(
      "fieldset",
      { class: "setting" },
      h("legend", { class: "caps" }, say("page-studio-before")),
      h("label", { class: "choice" }, cleaned, h("span", {}, say("gather-start-cleaned"))),
      draft.own("cleaned", cleaned, saved.cleaned),
      h("label", { class: "choice" }, cleared, h("span", {}, say("gather-start-cleared"))),
      draft.own("cleared", cleared, saved.cleared),
    ),
    field(say("page-studio-maker"), "maker", maker),
    h(
      "div",
      { class: "pair" },
      field(say("page-studio-label-width"), "width", width),
      field(say("page-studio-label-height"), "height", height),
    ),
    h(
      "div",
      { class: "pair" },
      field(say("page-studio-market"), "market", market),
      field(say("page-studio-opened"), "months", months),
    ),
  );
  const save = h("button", { type: "submit", class: "outlined" }, say("page-studio-save"));
  const others = h("p", { class: "soft" }, say("page-studio-makers"));
  /** @type {HTMLFormElement} */
  const form = h(
    "form",
    {
      class: "stack",
      novalidate: true,
      onsubmit: (event) => {
        event.preventDefault();
        show(trouble, false);
        try {
          const document = read();
          draft.sent();
          tell(form, "settings-written", { document });
        } catch (error) {
          if (!(error instanceof BenchError)) throw error;
          setText(trouble, error.says);
          show(trouble, true);
        }
      },
    },
    fields,
    trouble,
    save,
    others,
  );
  /** @param {SettingsDocument} there @param {boolean} mayWrite */
  const news = (there, mayWrite) => {
    known = there;
    draft.news(savedOf(there));
    fields.disabled = !mayWrite;
    show(save, mayWrite);
    show(others, !mayWrite);
  };
  news(settings, isMaker);
  return { node: form, news, saved: () => draft.saved() };
}
