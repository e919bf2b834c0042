// The sheets on which it is written what is wanted by when.
//
//   await askWanted({ recipes, outlets, by, newId, now })     // new lines, or null
//   await askChange(line, { title, outlets, now })            // one line as it is to be, or null

import { h, show } from "./dom.js";
import { askForm, field, refuse, submit } from "./form.js";
import { say } from "../words.js";
/** @import { OrderWant, Outlet } from "../../bench/shapes/page" */
/** @import { RecipeRow } from "../../types/keep" */
/** @import { WantSaid } from "../../types/told" */

const MOST = 10_000;
// Few recipes stand there to be seen; many are looked for.
const MOST_SEEN = 12;

/** @typedef {{outlets: readonly Outlet[], now: number}} Around */

/**
 * Of each recipe so many, all by one instant: a market in as many touches as it has recipes.
 * @param {Around & {recipes: readonly RecipeRow[], by: number, newId: () => string}} asked
 * @returns {Promise<WantSaid[] | null>}
 */
export function askWanted({ recipes, outlets, by, newId, now }) {
  const around = fields({ by, outlet: null, note: "" }, outlets);
  const rows = recipes.map((recipe) => {
    const many = number("", say("page-week-pieces-of", { title: recipe.title }));
    return { recipe, many, node: h("label", { class: "week-ask" }, h("span", {}, recipe.title), many) };
  });
  const find = h("input", { type: "search", autocomplete: "off", oninput: () => look() });
  const findRow = field(say("page-week-find"), find);

  function look() {
    const word = find.value.trim().toLowerCase();
    let seen = 0;
    for (const { recipe, many, node } of rows) {
      const fits = recipe.title.toLowerCase().includes(word) && seen < MOST_SEEN;
      if (fits) seen += 1;
      show(node, fits || many.value.trim() !== "");
    }
  }

  look();
  show(findRow, rows.length > MOST_SEEN);
  const list = h(
    "div",
    { class: "week-asks", role: "group", "aria-label": say("page-week-pieces") },
    rows.map(({ node }) => node),
  );
  return askForm(
    say("page-week-add"),
    submit(say("page-common-save")),
    [around.when, findRow, list, around.more],
    () => {
      const told = around.read(now);
      const lines = rows.flatMap(({ recipe, many }) => {
        if (!many.value.trim()) return [];
        const said = {
          recipe: recipe.id,
          pieces: piecesOf(many),
          ...told,
          state: /** @type {const} */ ("open"),
        };
        return [{ id: newId(), version: null, said }];
      });
      if (!lines.length) throw refuse(say("page-week-need-pieces"));
      return lines;
    },
  );
}

/**
 * @param {OrderWant} line @param {Around & {title: string}} asked @returns {Promise<WantSaid | null>}
 */
export function askChange(line, { title, outlets, now }) {
  const around = fields(line, outlets);
  const many = number(String(line.pieces), say("page-week-pieces"));
  return askForm(
    say("page-week-change-of", { title }),
    submit(say("page-common-save")),
    [field(say("page-week-pieces"), many), around.when, around.more],
    () => saidOf(line, { pieces: piecesOf(many), ...around.read(now), state: "open" }),
  );
}

/** A line as it is to be. @param {OrderWant} line @param {Partial<WantSaid["said"]>} now @returns {WantSaid} */
export function saidOf({ id, version, recipe, pieces, by, outlet, note, state }, now) {
  return { id, version, said: { recipe, pieces, by, outlet, note, state, ...now } };
}

/** @param {string} value @param {string} label */
const number = (value, label) =>
  h("input", { inputmode: "numeric", autocomplete: "off", class: "figures", "aria-label": label, value });

/** @param {HTMLInputElement} control */
function piecesOf({ value }) {
  const typed = value.replace(/[\s\u00a0]/g, "");
  const pieces = /^\d{1,5}$/.test(typed) ? Number(typed) : 0;
  if (pieces < 1 || pieces > MOST) throw refuse(say("page-week-need-pieces"));
  return pieces;
}

/**
 * By when, for whom, and a note.
 * @param {Pick<OrderWant, "by" | "outlet" | "note">} line @param {readonly Outlet[]} outlets
 */
function fields(line, outlets) {
  const when = h("input", { type: "datetime-local", value: localOf(line.by) });
  const whom = h(
    "select",
    {},
    h("option", { value: "" }, say("page-week-nobody")),
    outlets.flatMap(({ id, name }) =>
      name === null ? [] : [h("option", { value: id, selected: id === line.outlet }, name)],
    ),
  );
  const note = h("input", {
    autocomplete: "off",
    maxlength: 400,
    value: line.note,
    placeholder: say("page-week-note-hint"),
  });
  return {
    when: field(say("page-week-when"), when),
    more: h("div", { class: "two" }, field(say("page-week-whom"), whom), field(say("page-week-note"), note)),
    /** @param {number} now */
    read(now) {
      const by = when.value === localOf(line.by) ? line.by : new Date(when.value).getTime();
      if (!Number.isFinite(by)) throw refuse(say("page-week-need-when"));
      if (by <= now) throw refuse(say("page-week-need-later"));
      return { by, outlet: whom.value || null, note: note.value.trim() };
    },
  };
}

/** As a field of this kind has it, by the phone's own clock. @param {number} at */
function localOf(at) {
  const date = new Date(at);
  const two = (/** @type {number} */ whole) => String(whole).padStart(2, "0");
  const day = [date.getFullYear(), two(date.getMonth() + 1), two(date.getDate())].join("-");
  return `${day}T${two(date.getHours())}:${two(date.getMinutes())}`;
}

/** The next Saturday morning, when markets are. @param {number} now */
export function nextSaturday(now) {
  const date = new Date(now);
  date.setDate(date.getDate() + ((6 - date.getDay() + 7) % 7 || 7));
  date.setHours(9, 0, 0, 0);
  return date.getTime();
}
