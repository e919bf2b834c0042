// What is due before something is sold: which laws are known here, each duty, and how it stands. Folded, said once.
//
//   const duties = new DutiesPart((said) => tell(this, "duty-said", said));
//   duties.look(productIn(recipe), { id, seen, isMaker, isOnline, today });   // asked of the server, and kept
//   duties.node

import { first, given, h, keyed, part as within, setText, show } from "./dom.js";
import { OwnDraft } from "./own-draft.js";
import { asOf, unlessFaulty } from "./seen-words.js";
import { dayWords } from "./stock.js";
import { say, sayAll } from "../words.js";
/** @import { DutySaid, DutyStands, DutyState, LawStands, ProductStands } from "../../bench/shapes/page" */
/** @import { ProductUse, SoldIn } from "../../bench/shapes/page" */
/** @import { DutiesNow } from "../../types/parts" */

/**
 * @typedef {DutiesNow & {id: string}} DutiesAbout id: of the recipe; "" for none yet
 * @typedef {{use?: ProductUse, sold_in?: readonly SoldIn[], isSoap: boolean}} Product
 */

/** @type {Pick<ProductStands, "laws" | "duties" | "open">} */
const NONE = { laws: [], duties: [], open: 0 };
/** @type {readonly DutyState[]} */
const STATES = ["open", "seen_to", "not_mine"];

export class DutiesPart {
  #said;
  #draft = new OwnDraft();
  /** @type {{[duty: string]: DutyStands}} as last told */
  #told = {};
  /** @type {DutiesAbout} */
  #about = given();
  /** @type {Product} */
  #product = { isSoap: false };
  /** @type {{at: number, body: ProductStands} | undefined} */
  #row;
  #path = ""; // what is asked of the server
  #asked = "none yet";
  #summary = h("summary", {});
  #notSeen = h("p", { class: "soft" }, say("page-duties-not-seen"));
  #lastSeen = h("p", { class: "soft" });
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

  /**
   * As last seen, and then as the server says it; what stands, stands until then.
   * @param {Product} product @param {DutiesAbout} about
   */
  async look(product, about) {
    this.#product = product;
    this.#about = about;
    const path = pathOf(product, about.id);
    const isOther = path !== this.#path;
    const asked = `${path} ${about.isOnline}`;
    if (asked === this.#asked) return this.#write(about);
    [this.#asked, this.#path] = [asked, path];
    if (!path) return this.#show({ at: 0, body: { use: null, sold_in: null, ...product, ...NONE } }, about);
    const seen = await about.seen();
    const last = isOther ? await seen.kept(path) : this.#row;
    if (asked !== this.#asked) return;
    if (isOther && (last || !about.isOnline)) this.#show(last ?? null, about);
    const now = await seen.ask(path).catch(unlessFaulty);
    if (asked === this.#asked) this.#show(now ?? last ?? null, this.#about);
  }

  /** Something was said of a duty. */
  again() {
    this.#asked = "";
    if (this.#about) this.look(this.#product, this.#about);
  }

  /** @param {{at: number, body: ProductStands} | null} row @param {DutiesAbout} about */
  #show(row, about) {
    this.#row = row ?? undefined;
    this.#write(about);
  }

  /** @param {DutiesAbout} about */
  #write(about) {
    const told = this.#row?.body ?? { use: null, sold_in: null, ...this.#product, ...NONE };
    const { duties, laws, open } = told;
    const had = Object.keys(this.#told);
    this.#told = Object.fromEntries(duties.map((duty) => [duty.id, duty]));
    setText(this.#summary, titleOf(told, this.#row !== undefined, open));
    show(this.#notSeen, !this.#row);
    setText(this.#lastSeen, asOf(this.#row?.at ?? 0));
    show(this.#lastSeen, this.#row?.at && !about.isOnline);
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
    if (!Object.hasOwn(this.#told, id)) return;
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

/**
 * What a recipe is for and where it is sold, measured or as it is being written.
 * @param {{readonly use?: ProductUse, readonly sold_in?: readonly SoldIn[],
 *   readonly ingredients: {readonly [id: string]: {readonly kind?: string}},
 *   readonly components: readonly {readonly lines?: readonly {readonly ingredient: string}[]}[]}} recipe
 * @returns {Product}
 */
export const productIn = ({ use, sold_in, ingredients, components }) => ({
  use,
  sold_in,
  isSoap: components.some(({ lines = [] }) =>
    lines.some(({ ingredient }) => ingredients[ingredient]?.kind === "soap_base"),
  ),
});

/** What it follows from; "" where nothing does. @param {Product} product @param {string} id */
function pathOf({ use, sold_in = [], isSoap }, id) {
  if (!use || !sold_in.length) return "";
  const asked = new URLSearchParams([["use", use], ...sold_in.map((each) => ["sold_in", each])]);
  if (isSoap) asked.set("soap", "true");
  if (id) asked.set("recipe", id);
  return /** @type {`/duties/due?${string}`} */ (`/duties/due?${asked}`);
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

/** @param {ProductStands} told @param {boolean} isSeen @param {number} open */
function titleOf({ use, sold_in: markets, duties }, isSeen, open) {
  if (!use || !markets) return say("page-duties-unsaid");
  if (!markets.length) return say("page-duties-not-sold");
  if (!isSeen) return say("page-duties-title");
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
