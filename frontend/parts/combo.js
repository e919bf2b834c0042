// A field that proposes while it is typed in: an editable combobox with a list of its own, by the ARIA pattern.
//
//   h("div", {}, input, combobox(input, { says, now, later, take }))
//
// Down and up go through the list, Enter takes what is marked, Escape shuts it. What is typed stands until something
// is taken; with no answer from the server the list holds what is known here.

import { h, setAttr, show } from "./dom.js";

/**
 * @typedef {{name: string, called?: string}} Proposed what goes into the field, and what that is, if it says more
 */
/**
 * @template {Proposed} P
 * @typedef {object} Proposing
 * @property {string} says what the list is called
 * @property {(text: string) => readonly P[]} now what is known here
 * @property {(text: string) => Promise<readonly P[]>} later what the server knows; none where it does not answer
 * @property {(taken: P) => void} take
 */

const MOST = 8;
let made = 0;

/** @param {string} text */
const plain = (text) => text.trim().toLowerCase();

/**
 * The list of a field, to stand under it.
 * @template {Proposed} P @param {HTMLInputElement} input @param {Proposing<P>} proposing
 */
export function combobox(input, { says, now, later, take }) {
  made += 1;
  const id = `combo-${made}`;
  const list = h("ul", { class: "combo-list", id, "aria-label": says, hidden: true });
  list.setAttribute("role", "listbox");
  for (const [name, value] of Object.entries({
    role: "combobox",
    "aria-autocomplete": "list",
    "aria-expanded": "false",
    "aria-controls": id,
    autocomplete: "off",
  }))
    setAttr(input, name, value);
  /** @type {readonly P[]} */
  let there = [];
  let marked = -1;
  let asked = 0;

  const isOpen = () => !list.hidden;
  /** @param {number} place */
  const mark = (place) => {
    marked = place;
    [...list.children].forEach((row, at) => {
      setAttr(row, "aria-selected", String(at === place));
      if (at === place) row.scrollIntoView({ block: "nearest" });
    });
    setAttr(input, "aria-activedescendant", place < 0 ? null : `${id}-${place}`);
  };
  const shut = () => {
    asked += 1;
    show(list, false);
    setAttr(input, "aria-expanded", "false");
    mark(-1);
  };
  /** @param {P} taken */
  const give = (taken) => {
    shut();
    input.value = taken.name;
    input.dispatchEvent(new Event("input", { bubbles: true }));
    shut();
    take(taken);
  };
  /** @param {readonly P[]} rows */
  const draw = (rows) => {
    const names = new Map(rows.map((each) => /** @type {const} */ ([plain(each.name), each])));
    there = [...names.values()].slice(0, MOST);
    const isSaid = there.length === 1 && there[0].name === input.value && !there[0].called;
    if (there.length === 0 || isSaid) return shut();
    list.replaceChildren(
      ...there.map((each, at) =>
        h(
          "li",
          {
            id: `${id}-${at}`,
            role: "option",
            "aria-selected": "false",
            onpointerdown: (event) => event.preventDefault(), // the field keeps the focus
            onclick: () => give(each),
          },
          h("b", {}, each.name),
          each.called && plain(each.called) !== plain(each.name) ? h("span", {}, each.called) : null,
        ),
      ),
    );
    show(list, true);
    setAttr(input, "aria-expanded", "true");
    mark(-1);
  };
  const open = async () => {
    asked += 1;
    const mine = asked;
    const text = input.value;
    if (!text.trim()) return shut();
    const here = now(text);
    draw(here);
    asked = mine; // a list that is empty as yet is shut, and may still be filled
    const more = await later(text);
    if (mine === asked && document.activeElement === input) draw([...here, ...more]);
  };

  input.addEventListener("input", () => void open());
  input.addEventListener("blur", shut);
  input.addEventListener("keydown", (event) => {
    const { key } = event;
    if (key === "ArrowDown" || key === "ArrowUp") {
      event.preventDefault();
      if (!isOpen()) return void open();
      const step = key === "ArrowDown" ? 1 : -1;
      const from = marked < 0 && step < 0 ? there.length : marked;
      mark((from + step + there.length) % there.length);
    } else if (isOpen() && key === "Enter" && marked >= 0) {
      event.preventDefault();
      event.stopImmediatePropagation();
      give(there[marked]);
    } else if (isOpen() && key === "Escape") {
      event.preventDefault();
      event.stopPropagation();
      shut();
    }
  });
  return list;
}
