// What is due before something is sold: which laws are known here, each duty, and how it stands. Folded, said once.
//
//   const duties = new DutiesPart((said) => tell(this, "duty-said", said));
//   duties.write(stands(recipe, id, marks ?? []), { id, isSeen, isMaker, isOnline, today });
//   duties.node

import { first, h, keyed, part as within, setText, show } from "./dom.js";
import { OwnDraft } from "./own-draft.js";
import { dayWords } from "./stock.js";
import { say, sayAll } from "../words.js";
/** @import { DutySaid, DutyStands, DutyState, LawStands, ProductStands } from "../../bench/shapes/page" */

/** @typedef {{id: string, isSeen: boolean, isMaker: boolean, isOnline: boolean, today: string}} DutiesAbout */

/** @type {readonly DutyState[]} */
const STATES = ["open", "seen_to", "not_mine"];

export class DutiesPart {
  #said;
  #draft = new OwnDraft();
  /** @type {{[duty: string]: DutyStands}} as last told */
  #told = {};
  /** @type {DutiesAbout | null} */
  #about = null;
  #summary = h("summary", {});
  #notSeen = h("p", { class: "soft" }, say("page-duties-not-seen"));
  #lastSeen = h("p", { class: "soft" }, say("page-duties-last-seen"));
  #laws = h("ul", { class: "plain" });
  #duties = h("ul", { class: "plain" });
  node = h(
    "details",
    { class: "duties no-print" },
    this.#summary,
    h(
      "div",
      { class: "stack" },
      this.#notSeen,
      this.#lastSeen,
      h("p", {}, say("product-law-rules")),
      this.#laws,
      this.#duties,
    ),
  );

  /** @param {(said: DutySaid) => void} said */
  constructor(said) {
    this.#said = said;
  }

  /** @param {ProductStands} told @param {DutiesAbout} about */
  write(told, about) {
    const { duties, laws, open } = told;
    const had = Object.keys(this.#told);
    this.#about = about;
    this.#told = Object.fromEntries(duties.map((duty) => [duty.id, duty]));
    setText(this.#summary, titleOf(told, open));
    show(this.#notSeen, !about.isSeen);
    show(this.#lastSeen, about.isMaker && !about.isOnline);
    keyed(this.#laws, laws, ({ id }) => id, makeSourced, writeSourced);
    keyed(
      this.#duties,
      duties,
      ({ id }) => `${id} ${about.isMaker}`,
      (duty) => (about.isMaker ? this.#form(duty) : makeSaid(duty)),
      about.isMaker ? writeDuty : writeSaid,
    );
    show(this.#laws, laws.length);
    show(this.#duties, duties.length);
    for (const id of had) if (!Object.hasOwn(this.#told, id)) this.#draft.drop(keysOf(id));
    this.#draft.news(Object.assign({}, ...duties.map(valuesOf)));
  }

  /** A maker's row: what is typed in it is its own, whatever is drawn meanwhile. @param {DutyStands} duty */
  #form(duty) {
    const state = h(
      "select",
      { "aria-label": say("page-duties-how") },
      STATES.map((each) => h("option", { value: each }, say("page-duties-state", { state: each }))),
    );
    const day = h("input", { type: "date", "aria-label": say("page-duties-day") });
    const note = h("input", {
      maxlength: 400,
      placeholder: say("page-duties-note"),
      "aria-label": say("page-duties-note"),
    });
    const values = valuesOf(duty);
    const fields = /** @type {const} */ (["state", "day", "note"]).map((what, index) => {
      const control = [state, day, note][index];
      control.addEventListener("change", () => this.#tell(duty.id, { state, day, note }));
      return h(
        "div",
        {},
        control,
        this.#draft.own(`${duty.id}.${what}`, control, values[`${duty.id}.${what}`]),
      );
    });
    return makeDuty(duty, h("div", { class: "duty-stands" }, fields));
  }

  /**
   * @param {string} id
   * @param {{state: HTMLSelectElement, day: HTMLInputElement, note: HTMLInputElement}} fields
   */
  #tell(id, { state, day, note }) {
    if (!this.#about || !Object.hasOwn(this.#told, id)) return;
    const now = STATES.find((each) => each === state.value) ?? "open";
    if (now !== "open" && !day.value) day.value = this.#about.today;
    this.#said({
      about: this.#told[id].of === "studio" ? null : this.#about.id,
      duty: id,
      state: now,
      day: day.value || null,
      note: note.value.trim(),
    });
  }
}

/** @param {string} id */
const keysOf = (id) => ["state", "day", "note"].map((what) => `${id}.${what}`);

/** @param {DutyStands} duty @returns {{[key: string]: string}} */
const valuesOf = ({ id, state, day, note }) => ({
  [`${id}.state`]: state,
  [`${id}.day`]: day ?? "",
  [`${id}.note`]: note,
});

/** @param {DutyStands} duty @param {HTMLElement} stands how it does, or what asks for that */
function makeDuty({ id, more }, stands) {
  const row = makeSourced();
  row.dataset.duty = id;
  if (more) row.append(h("span", { class: "soft small" }, more));
  row.append(stands);
  return row;
}

/** Whoever is no maker sees how a duty stands. @param {DutyStands} duty */
const makeSaid = (duty) => makeDuty(duty, h("b", {}));

/** @param {HTMLElement} row @param {DutyStands} duty */
function writeDuty(row, duty) {
  writeSourced(row, duty);
  row.dataset.state = duty.state;
}

/** @param {HTMLElement} row @param {DutyStands} duty */
function writeSaid(row, duty) {
  writeDuty(row, duty);
  const { state, day, note } = duty;
  const when = day ? dayWords(day) : "";
  setText(within(row, "b"), [say("page-duties-state", { state }), when, note].filter(Boolean).join(" · "));
}

/** @param {ProductStands} told @param {number} open */
function titleOf({ use, sold_in: markets, duties }, open) {
  if (!use || !markets) return say("page-duties-unsaid");
  if (!markets.length) return say("page-duties-not-sold");
  return say("page-duties-open", { open, count: duties.length });
}

/** @returns {HTMLElement} */
const makeSourced = () => h("li", {}, h("span", {}), h("span", { class: "soft small" }));

/** @param {HTMLElement} row @param {LawStands | DutyStands} told */
function writeSourced(row, { says, markets, source, dated }) {
  const where = sayAll(markets.map((market) => say("product-market", { market })));
  const when = dated === "unknown" ? say("page-duties-no-date") : "";
  setText(first(row), says);
  setText(first(row, 1), [where, source, when].filter(Boolean).join(" · "));
}
