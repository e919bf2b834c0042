// The maker's equipment, written as people write it ("5 kg", "1 g"). The server measures it.
//
//   screen.data = { document, isMaker }        // the kit document or null; a helper only reads it
//   "kit-written" { document }     screen.trouble("…")     screen.kept()

import { define, h, part, sameData, setText, show, tell } from "../parts/dom.js";
import { OwnDraft } from "../parts/own-draft.js";
import { pageHead } from "../parts/page-head.js";
import { choicesOf } from "../parts/recipe-fields.js";
import { VESSELS } from "../parts/recipe-forms.js";
import { idFor } from "../parts/words.js";
import { say } from "../words.js";
/** @import { WrittenKit } from "../../bench/shapes/page" */

/**
 * @typedef {"scales" | "vessels" | "moulds" | "heaters" | "mixers"} GroupName
 * @typedef {[field: string, example?: string][]} Fields
 * @typedef {[group: GroupName, fields: Fields]} Group
 * @typedef {{readonly id?: string, readonly [field: string]: string | number | undefined}} Item as it is written
 */

/** @type {Group[]} */
const GROUPS = [
  ["scales", [["name"], ["capacity", "5 kg"], ["division", "1 g, 0.05 oz"], ["test_weight", "100 g"]]],
  ["vessels", [["name"], ["kind"], ["material"], ["empty", "420 g"], ["holds", "3 kg"]]],
  ["moulds", [["name"], ["shape", "round"], ["cavities", "12"], ["sets", "1"], ["cavity", "15 g"]]],
  ["heaters", [["name"], ["kind", "microwave"], ["absorbed_w", "500"]]],
  ["mixers", [["name"]]],
];
const WHOLE = new Set(["cavities", "sets", "absorbed_w"]);

/** @param {string} group @param {string | undefined} id @param {string} field */
const keyOf = (group, id, field) => `${group}.${id}.${field}`;

/** @param {WrittenKit | null} document @param {GroupName} group */
const itemsOf = (document, group) =>
  /** @type {readonly Item[]} */ (/** @type {readonly object[]} */ (document?.[group] ?? []));

/** What may stand in a field: figures as they are, or words of the catalogue. @param {string} [given] */
const exampleOf = (given) => (!given || /\d/.test(given) ? (given ?? "") : say(`page-kit-example-${given}`));

/** @param {string} field @param {string} [example] */
const written = (field, example) =>
  h("input", {
    name: field,
    placeholder: exampleOf(example),
    autocomplete: "off",
    inputmode: WHOLE.has(field) ? "numeric" : null,
  });

/** The kinds of vessel that recipes know. */
const kindOf = () =>
  h(
    "select",
    { name: "kind" },
    choicesOf(VESSELS).map(([value, label]) => h("option", { value }, label)),
  );

/** What a vessel may be made of; nothing said is the first. */
const MATERIALS = [
  "steel",
  "enamel",
  "aluminium",
  "copper",
  "glass",
  "porcelain",
  "polypropylene",
  "silicone",
  "wood",
];
const materialOf = () =>
  h(
    "select",
    { name: "material" },
    h("option", { value: "" }, say("page-kit-material-unsaid")),
    ...[...MATERIALS, "other"].map((each) => h("option", { value: each }, say(`page-kit-material-${each}`))),
  );

/** What a field of a vessel is written in, where it is no text. */
const CHOSEN = { kind: kindOf, material: materialOf };

/** The control of a field. @param {Element} row @param {string} field */
const controlOf = (row, field) =>
  /** @type {HTMLInputElement | HTMLSelectElement} */ (row.querySelector(`[name="${field}"]`));

/** What is saved, by the key of its field. @param {WrittenKit} document */
function savedOf(document) {
  /** @type {{[key: string]: string}} */
  const saved = {};
  for (const [group, fields] of GROUPS) {
    for (const item of itemsOf(document, group))
      for (const [field] of fields) saved[keyOf(group, item.id, field)] = String(item[field] ?? "");
  }
  return saved;
}

export class KitScreen extends HTMLElement {
  /** @type {WrittenKit | null} */
  #document = null; // as saved, when this form was last told
  #isMaker = false;
  /** @type {Map<GroupName, HTMLElement>} */
  #groups = new Map();
  #fields = h("fieldset", {});
  #draft = new OwnDraft();
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #kept = h("p", { role: "status", class: "soft" });

  /** @param {{document: WrittenKit | null, isMaker: boolean}} data */
  set data({ document, isMaker }) {
    /** @type {WrittenKit} */
    const there = document ?? { format: "bowlside-kit/1", scales: [] };
    if (this.#document !== null && sameData([this.#document, this.#isMaker], [there, isMaker])) return;
    if (this.#document === null) this.#build();
    const before = this.#document;
    this.#document = there;
    this.#isMaker = isMaker;
    this.#fields.disabled = !isMaker;
    for (const group of GROUPS) this.#news(group, itemsOf(before, group[0]), itemsOf(there, group[0]));
    this.#draft.news(savedOf(there));
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#trouble, text);
    show(this.#trouble, text !== "");
    setText(this.#kept, "");
  }

  kept() {
    this.#draft.saved();
    for (const [group, fields] of GROUPS) {
      for (const item of itemsOf(this.#document, group)) {
        const row = this.#rowsOf(group).find(({ dataset }) => dataset.id === item.id);
        if (row && !row.querySelector(".theirs")) this.#own(group, row, item, fields); // it is new
      }
    }
    setText(this.#kept, say("page-kit-saved"));
  }

  #build() {
    this.#fields.append(
      ...GROUPS.map(([group, fields]) => {
        const rows = h("div", { class: "kit-rows" });
        this.#groups.set(group, rows);
        const title = say(`page-kit-group-${group}`);
        return h(
          "section",
          { "aria-label": title },
          h("h2", { class: "section-name" }, title),
          rows,
          h(
            "button",
            {
              type: "button",
              class: "quiet add-row",
              onclick: () => {
                const row = this.#makeRow(group, {}, fields);
                rows.append(row);
                part(row, "input").focus();
              },
            },
            say(`page-kit-add-${group}`),
          ),
        );
      }),
    );
    this.append(
      h(
        "form",
        {
          class: "sheet",
          novalidate: true,
          onsubmit: (event) => {
            event.preventDefault();
            const document = this.#read();
            this.#draft.sent();
            tell(this, "kit-written", { document });
          },
        },
        pageHead(say("page-title-kit"), "kit"),
        h("p", { class: "lead" }, say("page-kit-lead")),
        this.#fields,
        h(
          "div",
          { class: "size-foot" },
          this.#trouble,
          this.#kept,
          h("button", { type: "submit", class: "copper" }, say("page-kit-save")),
        ),
      ),
    );
  }

  /** @param {GroupName} group */
  #rowsOf(group) {
    return /** @type {HTMLElement[]} */ ([...(this.#groups.get(group)?.children ?? [])]);
  }

  /**
   * Things that came or went elsewhere; one that is being written here stays, and is saved with the rest.
   * @param {Group} one @param {readonly Item[]} before @param {readonly Item[]} there
   */
  #news([group, fields], before, there) {
    const had = new Set(before.map(({ id }) => id));
    const has = new Set(there.map(({ id }) => id));
    const shown = new Set(this.#rowsOf(group).map(({ dataset }) => dataset.id));
    for (const item of there)
      if (!had.has(item.id) && !shown.has(item.id))
        this.#groups.get(group)?.append(this.#makeRow(group, item, fields));
    for (const row of this.#rowsOf(group)) {
      const { id } = row.dataset;
      const isMine =
        fields.some(([field]) => this.#draft.isMine(keyOf(group, id, field))) ||
        row.contains(document.activeElement);
      if (!had.has(id) || has.has(id)) continue;
      if (isMine)
        row.append(h("p", { class: "theirs small", role: "status" }, say("page-kit-removed-elsewhere")));
      else row.remove();
      this.#draft.drop(fields.map(([field]) => keyOf(group, id, field)));
    }
  }

  /**
   * From now on news of its fields stands beside them.
   * @param {GroupName} group @param {HTMLElement} row @param {Item} item @param {Fields} fields
   */
  #own(group, row, item, fields) {
    for (const [field] of fields) {
      const control = controlOf(row, field);
      control.after(this.#draft.own(keyOf(group, row.dataset.id, field), control, String(item[field] ?? "")));
    }
  }

  /** @param {GroupName} group @param {Item} item @param {Fields} fields */
  #makeRow(group, item, fields) {
    const row = h("div", {
      class: "kit-row",
      "data-id": item.id ?? "",
      role: "group",
      "aria-label": item.name ?? say("page-kit-new"),
    });
    row.append(
      ...fields.map(([field, example]) =>
        h(
          "label",
          { class: "field" },
          h("span", {}, say(`page-kit-field-${field.replace("_", "-")}`)),
          group === "vessels" && (field === "kind" || field === "material")
            ? CHOSEN[field]()
            : written(field, example),
        ),
      ),
      h("button", { type: "button", class: "quiet", onclick: () => row.remove() }, say("page-kit-remove")),
    );
    if (item.id) this.#own(group, row, item, fields);
    return row;
  }

  #read() {
    /** @type {{[group: string]: unknown}} */
    const document = { ...this.#document };
    for (const [group, fields] of GROUPS) {
      /** @type {Set<string>} */
      const ids = new Set();
      const items = this.#rowsOf(group).map((row) => {
        /** @type {{[field: string]: string | number}} */
        const item = {};
        for (const [field] of fields) {
          const text = controlOf(row, field).value.trim();
          if (text) item[field] = WHOLE.has(field) && /^\d+$/.test(text) ? Number(text) : text;
        }
        const id = idFor(row.dataset.id || String(item.name ?? "") || group, ids);
        row.dataset.id = id; // by which news of it is known
        return { id, ...item };
      });
      if (items.length || group === "scales") document[group] = items;
      else delete document[group];
    }
    return document;
  }
}

export const registerKitScreen = () => define("kit-screen", KitScreen);
