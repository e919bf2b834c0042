// The studio's own words and money: batch numbers, currency and rates, and what stands on labels.
//
//   settingsForm(settings, isMaker)     tells "settings-written" { document }

import { checkPattern } from "../bench/batch-number.js";
import { readMoney } from "../bench/cost.js";
import { h, setText, show, tell } from "./dom.js";

export function settingsForm(settings, isMaker) {
  const text = (value, props = {}) => h("input", { autocomplete: "off", value: value ?? "", ...props });
  const pattern = text(settings.batch_number);
  const currency = text(settings.currency, { maxlength: 3, placeholder: "EUR" });
  const rate = text(settings.hourly_rate, { inputmode: "decimal", placeholder: "18.00" });
  const wrap = text(settings.wrap_cost, { inputmode: "decimal", placeholder: "0.12" });
  const bare = h("input", { type: "checkbox", checked: Boolean(settings.without_tax) });
  const maker = h("textarea", { rows: 3 }, settings.maker ?? "");
  const given = settings.label ?? {};
  const number = (value) => text(value, { type: "number", inputmode: "numeric", min: 10, max: 400 });
  const width = number(given.width_mm ?? 70);
  const height = number(given.height_mm ?? 50);
  const market = h("select", {}, [["us", "The US"], ["eu", "The EU"]].map(([value, says]) => h("option", { value, selected: value === (given.market ?? "eu") }, says)));
  const months = text(given.opened_months, { type: "number", inputmode: "numeric", min: 1, max: 120 });
  const trouble = h("p", { class: "trouble", role: "alert", hidden: true });

  /** What is written, with what this form does not know left as it was; throws an error with `says`. */
  const read = () => {
    const document = { ...settings, batch_number: pattern.value.trim() };
    checkPattern(document.batch_number);
    const set = (key, value) => (value ? (document[key] = value) : delete document[key]);
    set("currency", currency.value.trim().toUpperCase());
    for (const [key, input] of [["hourly_rate", rate], ["wrap_cost", wrap]]) {
      set(key, input.value.trim().replace(",", "."));
      if (document[key]) readMoney(document[key], key);
    }
    set("without_tax", bare.checked);
    set("maker", maker.value.trim());
    document.label = { ...given, market: market.value };
    for (const [key, input] of [["width_mm", width], ["height_mm", height], ["opened_months", months]]) {
      if (Number(input.value)) document.label[key] = Number(input.value);
      else delete document.label[key];
    }
    return document;
  };

  const field = (name, control, says = "") => h("label", { class: "field" }, h("span", {}, name), control, says ? h("span", {}, says) : null);
  const form = h(
    "form",
    { class: "stack", novalidate: true, onsubmit: (event) => {
      event.preventDefault();
      show(trouble, false);
      try {
        tell(form, "settings-written", { document: read() });
      } catch (error) {
        if (!error.says) throw error;
        setText(trouble, error.says);
        show(trouble, true);
      }
    } },
    h(
      "fieldset",
      { class: "stack", disabled: !isMaker },
      field("Batch numbers by this pattern", pattern, "{yyyy} {yy} {mm} {dd} {recipe}; {mark} and {n} are each phone\u2019s own, so that phones with no network do not give one number twice"),
      h("div", { class: "pair" }, field("Currency", currency), field("An hour of hand work", rate)),
      h("div", { class: "pair" }, field("Wrap for each piece", wrap), h("label", { class: "choice" }, bare, h("span", {}, "Tax is reclaimed"))),
      field("Name and address for labels", maker),
      h("div", { class: "pair" }, field("Label width, mm", width), field("Label height, mm", height)),
      h("div", { class: "pair" }, field("Sold in", market), field("Good after opening, months", months)),
    ),
    trouble,
    isMaker ? h("button", { type: "submit", class: "outlined" }, "Save the settings") : h("p", { class: "soft" }, "These are the maker\u2019s to change."),
  );
  return form;
}
