// The maker's equipment, written as people write it ("5 kg", "1 g"). The server measures it.
//
//   screen.data = { document, isMaker }        // the kit document or null; a helper only reads it
//   "kit-written" { document }     screen.trouble("…")     screen.kept()

import { define, h, sameData, setText, show, tell } from "../parts/dom.js";
import { pageHead } from "../parts/page-head.js";
import { idFor } from "../parts/words.js";

const GROUPS = [
  ["scales", "Scales", "a scale", [["name", "Name"], ["capacity", "Up to", "5 kg"], ["division", "In steps of", "1 g"]]],
  ["vessels", "Bowls and jugs", "a vessel", [["name", "Name"], ["kind", "Kind", "bowl"], ["empty", "Weighs empty", "420 g"], ["holds", "Holds", "3 kg"]]],
  ["moulds", "Moulds", "a mould", [["name", "Name"], ["shape", "Shape", "round"], ["cavities", "Cavities", "12"], ["sets", "How many of it", "1"], ["cavity", "One cavity holds", "15 g"]]],
  ["heaters", "Heaters", "a heater", [["name", "Name"], ["kind", "Kind", "microwave"], ["absorbed_w", "Watts that reach the food", "500"]]],
  ["mixers", "Mixers", "a mixer", [["name", "Name"]]],
];
const WHOLE = new Set(["cavities", "sets", "absorbed_w"]);

class KitScreen extends HTMLElement {
  #document;
  #isMaker;
  #groups = new Map();
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #kept = h("p", { role: "status", class: "soft" });

  set data({ document, isMaker }) {
    if (this.#document !== undefined && sameData([this.#document, this.#isMaker], [document, isMaker])) return;
    this.#document = document;
    this.#isMaker = isMaker;
    this.#build();
  }

  trouble(text) {
    setText(this.#trouble, text);
    show(this.#trouble, text !== "");
    setText(this.#kept, "");
  }

  kept() {
    setText(this.#kept, "Kept.");
  }

  #build() {
    const written = this.#document ?? { format: "bowlside-kit/1", scales: [] };
    const groups = GROUPS.map(([group, title, one, fields]) => {
      const rows = h("div", { class: "kit-rows" });
      this.#groups.set(group, rows);
      rows.append(...(written[group] ?? []).map((item) => makeRow(item, fields)));
      return h("section", { "aria-label": title }, h("h2", { class: "section-name" }, title), rows, h("button", { type: "button", class: "quiet add-row", onclick: () => {
        const row = makeRow({}, fields);
        rows.append(row);
        row.querySelector("input").focus();
      } }, `Add ${one}`));
    });
    this.replaceChildren(
      h("form", { class: "sheet", novalidate: true, onsubmit: (event) => {
        event.preventDefault();
        tell(this, "kit-written", { document: this.#read(written) });
      } }, pageHead("Kit", "kit"), h("p", { class: "lead" }, "What stands on the bench. Runs already begun keep the kit they began with."), h("fieldset", { disabled: !this.#isMaker }, groups), h("div", { class: "size-foot" }, this.#trouble, this.#kept, h("button", { type: "submit", class: "copper" }, "Keep this kit"))),
    );
  }

  #read(written) {
    const document = { ...written };
    for (const [group, , , fields] of GROUPS) {
      const ids = new Set();
      const items = [...this.#groups.get(group).children].map((row) => {
        const item = {};
        for (const [field] of fields) {
          const text = row.querySelector(`[name="${field}"]`).value.trim();
          if (text) item[field] = WHOLE.has(field) && /^\d+$/.test(text) ? Number(text) : text;
        }
        return { id: idFor(row.dataset.id || item.name || group, ids), ...item };
      });
      if (items.length || group === "scales") document[group] = items;
      else delete document[group];
    }
    return document;
  }
}

function makeRow(item, fields) {
  const row = h(
    "div",
    { class: "kit-row", "data-id": item.id ?? "", role: "group", "aria-label": item.name ?? "new" },
    fields.map(([field, label, example]) => h("label", { class: "field" }, h("span", {}, label), h("input", { name: field, value: item[field] ?? "", placeholder: example ?? "", autocomplete: "off", inputmode: WHOLE.has(field) ? "numeric" : null }))),
    h("button", { type: "button", class: "quiet", onclick: () => row.remove() }, "Take away"),
  );
  return row;
}

export const registerKitScreen = () => define("kit-screen", KitScreen);
