// The label of one batch, drawn at true size: its ingredient list from what was really weighed, what was
// checked and what was not. Made to be printed. The server words it: what is changed here is asked of it, and the last
// answer stands until the next is here, or with no connection.
//
//   screen.data = { run, recipe: measured or null, entries, settings, link, duties: { today, seen, … } }

import { those } from "../bench/lists.js";
import { record } from "../bench/record.js";
import { mass } from "../bench/whole.js";
import { define, given, h, part as within, s, setText, show, tell } from "../parts/dom.js";
import { saysOf } from "../bench/errors.js";
import { DutiesPart, productIn } from "../parts/duties.js";
import { field } from "../parts/form.js";
import { drawLabel } from "../parts/label-plate.js";
import { labelSheets } from "../connected.js";
import { pageHead } from "../parts/page-head.js";
import { labelsSaid } from "../parts/record-parts.js";
import { asOf } from "../parts/seen-words.js";
import { point, say, sayAll } from "../words.js";
/** @import { LetterHeight, Letters, Market, MeasuredRecipe } from "../../bench/shapes/page" */
/** @import { Label, LabelShape, ProductUse, MeantFor } from "../../bench/shapes/page" */
/** @import { KeptEntry, Link, Typed } from "../../types/keep" */
/** @import { Batch } from "../../types/parts" */
/** @import { SettingsDocument } from "../../types/server" */
/** @import { Control } from "../../types/parts" */
/** @import { Props } from "../../types/dom" */
/** @import { LabelSaid } from "../../types/answers" */
/** @import { DutiesNow } from "../../types/parts" */

/** @type {Omit<LabelSaid, "opened_months">} */
const SIZE = { market: "eu", shape: "rectangle", width_mm: 70, height_mm: 50 };
/** @type {readonly LabelShape[]} */
const SHAPES = ["rectangle", "cylinder", "other"];
/** @type {readonly Market[]} */
const MARKETS = ["us", "eu", "uk"];
/** @type {readonly ProductUse[]} */
const USES = ["bath", "wash", "left_on", "lips", "eyes", "air", "decoration"];
/** @type {readonly MeantFor[]} */
const MEANT = ["all", "adults", "children"];
const MM = 1000; // in µm

const MOST_TEXT = 2000; // of an entry
const RESTS_MS = 150; // who types is answered once the hand rests

/**
 * @typedef {{run: Batch, recipe: MeasuredRecipe | null, entries: readonly KeptEntry[],
 *   settings: SettingsDocument, link: Link, duties: DutiesNow}} LabelData
 * @typedef {{shape: LabelShape, width_mm: number, height_mm: number}} SizeMm
 * @typedef {ReturnType<typeof import("../parts/label-sheet.js").sheetChoice>} SheetChoice
 * @typedef {{width: HTMLInputElement, height: HTMLInputElement, shape: HTMLSelectElement, identity: HTMLInputElement,
 *   use: HTMLSelectElement, single: HTMLSelectElement, meant: HTMLSelectElement, keeps: HTMLInputElement,
 *   purpose: HTMLInputElement, opened: HTMLInputElement, best: HTMLInputElement, maker: HTMLTextAreaElement,
 *   precautions: HTMLTextAreaElement, origin: HTMLInputElement, leaflet: HTMLSelectElement}} LabelInputs
 */

export class LabelScreen extends HTMLElement {
  /** @type {LabelData} */
  #data = given();
  /** @type {LabelInputs} */
  #inputs = given();
  /** @type {typeof import("../parts/label-sheet.js") | null} */
  #onSheets = null; // for the desk, with a connection
  /** @type {SheetChoice | null} */
  #sheets = null;
  #sheetsPlace = h("div", { class: "no-print" });
  #pdf = h("a", { class: "button quiet", target: "_blank" }, say("page-label-pdf"));
  #leaflets = h("a", { class: "button quiet", target: "_blank", hidden: true }, say("page-label-leaflets"));
  #trial = h("a", { class: "button quiet", target: "_blank" }, say("page-label-trial"));
  #counted = h(
    "button",
    { type: "button", class: "quiet", hidden: true, onclick: () => this.#count() },
    say("page-label-count-them"),
  );
  #counts = h("ul", { class: "soft small", hidden: true });
  #stage = h("div", { class: "label-stage" });
  #seen = h("p", { class: "soft no-print", role: "status" });
  #resting = 0;
  #turn = 0; // only the last question's answer is drawn
  /** @type {Label | null} */
  #label = null;
  #drawn = ""; // what is said of it, as JSON
  /** @type {Letters} */
  #letters = {};
  /** @type {Typed} */
  #unsaid = {}; // what stands in the fields before anybody typed
  #open = h("div", { class: "no-print", "aria-live": "polite" });
  // Shown once what stands above it is there: nothing moves under who types.
  #form = h("section", {
    class: "no-print stack label-form",
    "aria-label": say("page-label-on-it"),
    hidden: true,
  });
  /** @type {Promise<void> | null} */
  #bringing = null;
  #told = h("div", { class: "no-print", "aria-live": "polite" });
  #language = h("p", { class: "soft small" });
  #trouble = h("p", { class: "trouble no-print", role: "alert", hidden: true });
  #duties = new DutiesPart((said) => tell(this, "duty-said", said));
  #keep = h(
    "button",
    { type: "button", class: "quiet no-print", hidden: true, onclick: () => this.#keepProduct() },
    say("page-duties-keep"),
  );
  #kept = h("p", { class: "soft no-print", role: "status" });

  /** @param {LabelData} data */
  set data(data) {
    const had = this.#data;
    const isSame =
      had?.run.state === data.run.state &&
      had.entries === data.entries &&
      had.settings.maker === data.settings.maker &&
      had.link.state === data.link.state &&
      had.link.unsent === data.link.unsent &&
      had.recipe?.use === data.recipe?.use;
    this.#data = data;
    if (!this.#inputs) this.#build();
    if (had?.link.state !== data.link.state && !this.#sheets) this.#bringing = this.#bringSheets();
    if (isSame) this.#writeDuties();
    else this.#draw();
  }

  connectedCallback() {
    this.#draw();
  }

  disconnectedCallback() {
    if (this.#resting) this.#keepTyped();
    clearTimeout(this.#resting);
  }

  /** A sheet of the maker's own was saved. */
  kept() {
    this.trouble("");
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#trouble, text);
    show(this.#trouble, text !== "");
  }

  /** Labels on pieces and in the bin are told to the batch's record, with what stood on them. */
  async #count() {
    if (!this.#onSheets || !this.#label) return;
    const { market, plate } = this.#label;
    const text = plate
      .map((each) => each.text)
      .join("\n")
      .slice(0, MOST_TEXT);
    const body = await this.#onSheets.askCounted({ count: this.#good, market, text });
    if (body) tell(this, "answer", { kind: "labelled", body });
  }

  #print() {
    const { sheet, start, count } = this.#chosen;
    if (!this.#label) return;
    if (!sheet || !this.#onSheets) return print();
    const drawn = within(this.#stage, ".label-plate");
    this.#onSheets.printSheets(
      sheet,
      start,
      Array.from({ length: count }, () => /** @type {HTMLElement} */ (drawn.cloneNode(true))),
    );
  }

  /** @param {string} text */
  told(text) {
    setText(this.#kept, text);
  }

  /** Something was said of a duty. */
  dutySaid() {
    this.#duties.again();
    this.#draw();
  }

  /** What it is for and where it is sold: as the recipe says, else as it is answered here. */
  get #product() {
    const { recipe } = this.#data;
    const said = recipe ? productIn(recipe) : { isSoap: false };
    return { ...said, use: said.use ?? this.#use ?? undefined, sold_in: said.sold_in ?? [this.#market] };
  }

  get #use() {
    return USES.find((value) => value === this.#inputs.use.value) ?? null;
  }

  /** @returns {Market} */
  get #market() {
    const chosen = /** @type {HTMLInputElement} */ (within(this, "[name=market]:checked"));
    return MARKETS.find((value) => value === chosen.value) ?? "eu";
  }

  #keepProduct() {
    const { use, sold_in } = this.#product;
    if (use) tell(this, "product-said", { id: this.#data.run.recipe.id, use, sold_in });
  }

  #writeDuties() {
    const { run, recipe, duties } = this.#data;
    const product = this.#product;
    show(this.#keep, recipe && duties.isMaker && product.use && !(recipe.use && recipe.sold_in));
    this.#duties.look(product, { ...duties, id: run.recipe.id });
  }

  #build() {
    const { settings, run, recipe } = this.#data;
    const given = { ...SIZE, ...settings.label };
    // Northern Ireland follows the EU's rules.
    const soldIn = (recipe?.sold_in ?? []).map((each) => (each === "ni" ? "eu" : each));
    const first = MARKETS.find((each) => soldIn.includes(each));
    if (first && !(given.market && soldIn.includes(given.market))) given.market = first;
    const again = () => this.#draw();
    /** @param {Props<HTMLInputElement>} props */
    const input = (props) => h("input", { autocomplete: "off", oninput: again, ...props });
    /** @param {number | undefined} value @param {number} least @param {number} most */
    const number = (value, least, most) =>
      input({ type: "number", value: value ?? "", min: least, max: most, inputmode: "numeric" });
    /** @param {readonly string[]} values @param {(value: string) => string} called */
    const select = (values, called) =>
      h(
        "select",
        { onchange: again },
        values.map((value) => h("option", { value }, called(value))),
      );
    const inputs = {
      width: number(given.width_mm, 10, 400),
      height: number(given.height_mm, 10, 400),
      shape: h(
        "select",
        { onchange: again },
        SHAPES.map((shape) =>
          h("option", { value: shape, selected: shape === given.shape }, say("page-label-shape", { shape })),
        ),
      ),
      identity: input({ placeholder: run.sheet.recipe.title }),
      use: select(["", ...USES], (use) => (use ? say("product-use", { use }) : say("page-label-use-unsaid"))),
      single: select(["", "yes", "no"], (single) => say("page-label-single-is", { single })),
      meant: select(MEANT, (meant) => say("page-label-meant-for", { meant })),
      keeps: number(undefined, 1, 120),
      purpose: input({ placeholder: say("page-label-purpose-hint") }),
      opened: number(given.opened_months, 1, 120),
      best: input({ type: "date" }),
      maker: h("textarea", { rows: 2, oninput: again }, settings.maker ?? ""),
      precautions: h("textarea", { rows: 2, oninput: again }),
      origin: input({ maxlength: 60 }),
      leaflet: select(["", "yes"], (leaflet) => say("page-label-leaflet-is", { leaflet })),
    };
    inputs.use.value = recipe?.use ?? "";
    this.#inputs = inputs;
    this.#unsaid = this.#typed;
    /** @param {Market} value */
    const market = (value) =>
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
        h("span", {}, say("page-label-market", { market: value })),
      );
    this.#form.append(
      h("h2", { class: "section-name" }, say("page-label-on-it")),
      h(
        "div",
        { class: "two" },
        field(say("page-label-width"), inputs.width),
        field(say("page-label-height"), inputs.height),
      ),
      field(say("page-label-goes-on"), inputs.shape),
      field(say("page-label-identity"), inputs.identity),
      field(say("page-label-purpose"), inputs.purpose),
      field(say("page-label-use"), inputs.use),
      this.#keep,
      this.#kept,
      h(
        "div",
        { class: "two" },
        field(say("page-label-single"), inputs.single),
        field(say("page-label-meant"), inputs.meant),
      ),
      field(say("page-label-keeps"), inputs.keeps),
      h(
        "div",
        { class: "two" },
        field(say("page-label-opened"), inputs.opened),
        field(say("page-shelf-best"), inputs.best),
      ),
      field(say("page-label-maker"), inputs.maker),
      field(say("page-label-precautions"), inputs.precautions),
      field(say("page-label-origin"), inputs.origin),
      field(say("page-label-leaflet"), inputs.leaflet),
    );
    this.append(
      h(
        "div",
        { class: "sheet label-sheet" },
        pageHead(say("page-title-label"), ""),
        h(
          "fieldset",
          { class: "ways no-print" },
          h("legend", { class: "unseen" }, say("page-label-sold-in")),
          MARKETS.map(market),
        ),
        this.#seen,
        this.#stage,
        h(
          "p",
          { class: "label-measure small" },
          s("svg", { viewBox: "0 0 50 2", "aria-hidden": "true" }, s("rect", { width: 50, height: 2 })),
          say("label-bar"),
        ),
        this.#trouble,
        this.#duties.node,
        h(
          "div",
          { class: "stack no-print" },
          h(
            "button",
            { type: "button", class: "copper", onclick: () => this.#print() },
            say("page-label-print"),
          ),
          h("p", { class: "soft small" }, say("page-label-print-says")),
          this.#sheetsPlace,
          h("div", { class: "pair" }, this.#pdf, this.#leaflets, this.#trial),
          this.#counted,
          this.#counts,
          h("p", { class: "soft small" }, say("page-label-pdf-says")),
          this.#language,
        ),
        this.#open,
        this.#form,
        this.#told,
      ),
    );
    this.#fillIn().then(() => this.#draw());
  }

  /** Sheets of labels, as many as there are good pieces. */
  async #bringSheets() {
    const { settings } = this.#data;
    try {
      this.#onSheets ??= await labelSheets();
    } catch (error) {
      setText(this.#sheetsPlace, saysOf(error));
      return;
    }
    if (this.#sheets) return;
    this.#sheets = this.#onSheets.sheetChoice({
      own: settings.label?.sheets ?? [],
      count: Math.max(1, this.#good),
      again: () => this.#draw(),
      keep: (sheet) => {
        const { settings: now } = this.#data;
        const others = (now.label?.sheets ?? []).filter(({ name }) => name !== sheet.name);
        const label = { ...now.label, sheets: [...others, sheet] };
        tell(this, "settings-written", { document: { ...now, label } });
      },
    });
    this.#sheetsPlace.replaceChildren(this.#sheets.node);
    show(this.#counted, true);
  }

  /** Pieces that want a label. */
  get #good() {
    const { sheet, state, entries } = this.#data.run;
    const { good, planned } = record(sheet, state, entries).yield;
    return good ?? planned;
  }

  get #chosen() {
    return this.#sheets?.chosen() ?? { sheet: null, start: 1, count: 1 };
  }

  /** @returns {SizeMm} */
  get #size() {
    const { width, height, shape } = this.#inputs;
    const { sheet } = this.#chosen;
    width.disabled = sheet !== null;
    height.disabled = sheet !== null;
    /** @param {HTMLInputElement} input */
    const fit = ({ value, min, max }) =>
      Math.min(Number(max), Math.max(Number(min), Math.round(Number(value) || 0)));
    const chosen = SHAPES.find((value) => value === shape.value) ?? "rectangle";
    return sheet
      ? { shape: chosen, width_mm: sheet.width_um / MM, height_mm: sheet.height_um / MM }
      : { shape: chosen, width_mm: fit(width), height_mm: fit(height) };
  }

  /** What stands in the fields. @returns {Typed} */
  get #typed() {
    return Object.fromEntries(Object.entries(this.#inputs).map(([name, { value }]) => [name, value]));
  }

  /** What is typed is kept until it is typed again: what nobody changed goes on following settings and recipe. */
  #keepTyped() {
    const typed = Object.entries(this.#typed).filter(([name, value]) => value !== this.#unsaid[name]);
    const name = `label ${this.#data.run.id}`;
    this.#data.duties.seen().then((seen) => seen.type(name, Object.fromEntries(typed)));
  }

  async #fillIn() {
    const seen = await this.#data.duties.seen();
    const typed = await seen.typed(`label ${this.#data.run.id}`);
    if (JSON.stringify(this.#typed) !== JSON.stringify(this.#unsaid)) return; // somebody was quicker
    for (const [name, control] of Object.entries(this.#inputs)) control.value = typed[name] ?? control.value;
  }

  /** What is asked of the server: what stands in the fields. @param {SizeMm} size */
  #asked(size) {
    const { identity, purpose, opened, best, maker, precautions, single, meant, keeps } = this.#inputs;
    const { origin, leaflet } = this.#inputs;
    return {
      market: this.#market,
      shape: size.shape,
      width_um: Math.round(size.width_mm * MM),
      height_um: Math.round(size.height_mm * MM),
      identity: identity.value.trim(),
      function: purpose.value.trim(),
      opened_months: Number(opened.value),
      best_before: best.value,
      use: this.#use,
      single_use: single.value && single.value === "yes",
      meant_for: meant.value,
      keeps_months: Number(keeps.value) || null,
      origin: origin.value.trim(),
      leaflet: leaflet.value ? true : null,
      today: this.#data.duties.today,
      maker: maker.value.trim(),
      precautions: precautions.value
        .split("\n")
        .map((line) => line.trim())
        .filter(Boolean),
    };
  }

  /** The same as a PDF, and a trial of the sheet. @param {{[name: string]: unknown}} asked */
  #address(asked) {
    const { sheet, start, count } = this.#chosen;
    const of = sheet ? { sheet: sheet.name, start, count } : {};
    this.#pdf.href = `/api/v1/runs/${this.#data.run.id}/label.pdf?${query({ ...asked, ...of })}`;
    const isWithLeaflet = Boolean(asked.leaflet) && asked.market !== "us";
    show(this.#leaflets, isWithLeaflet);
    const { count: pieces } = this.#chosen;
    const leaflets = { ...asked, of: "leaflet", ...(sheet ? { count: pieces } : {}) };
    this.#leaflets.href = `/api/v1/runs/${this.#data.run.id}/label.pdf?${query(leaflets)}`;
    show(this.#trial, sheet !== null);
    if (sheet) this.#trial.href = `/api/v1/label-sheet.pdf?${query({ sheet: sheet.name })}`;
  }

  /** At once what is known, at the size that is chosen now; and what the server makes of it once the hand rests. */
  #draw() {
    if (!this.isConnected || !this.#inputs) return;
    setText(this.#language, say("page-label-language", { market: this.#market }));
    this.#writeDuties();
    const { labelled } = this.#data.run.state;
    this.#counts.replaceChildren(...labelled.map((told) => h("li", {}, labelsSaid({ ...told, text: "" }))));
    show(this.#counts, labelled.length > 0);
    this.#address(this.#asked(this.#size));
    this.#plate();
    clearTimeout(this.#resting);
    this.#resting = setTimeout(() => this.#ask(), RESTS_MS);
  }

  /** Draws the label and measures its letters. @returns {Letters} */
  #plate() {
    if (!this.#label) return {};
    const { letters, fits } = drawLabel(this.#label, this.#size, this.#stage);
    this.trouble(fits ? "" : say("page-label-no-fit"));
    return letters;
  }

  /** Twice, where letters come out another height than before: the rule judges how high they are. */
  async #ask() {
    this.#resting = 0;
    const turn = ++this.#turn;
    const { run, duties } = this.#data;
    const asked = this.#asked(this.#size);
    const name = `label ${run.id} ${asked.market}`;
    const seen = await duties.seen();
    this.#keepTyped();
    try {
      for (let isMeasured = false, times = 0; !isMeasured && times < 2; times += 1) {
        const path = /** @type {const} */ (`/runs/${run.id}/label?${query({ ...asked, ...this.#letters })}`);
        const { body } = await seen.ask(path, { run: run.id, name });
        if (turn !== this.#turn) return;
        setText(this.#seen, "");
        isMeasured = this.#show(body);
      }
    } catch (error) {
      const says = saysOf(error);
      if (!says) throw error;
      if (turn !== this.#turn) return;
      if (error instanceof Error && "status" in error) this.trouble(says);
      else await this.#away(await seen.kept(`/runs/${run.id}/label?`, name), says);
    }
    await this.#bringing;
    show(this.#form, true);
  }

  /**
   * With no answer the last that was seen stands.
   * @param {{at: number, body: Label} | undefined} last @param {string} says
   */
  async #away(last, says) {
    setText(this.#seen, last ? asOf(last.at) : says);
    if (last) this.#show(last.body);
    else {
      this.#label = null;
      this.#drawn = "";
      for (const node of [this.#stage, this.#open, this.#told]) node.replaceChildren();
    }
  }

  /** @param {Label} told @returns {boolean} whether its letters are as high as they were when it was asked */
  #show(told) {
    this.#label = told;
    const letters = this.#plate();
    const isMeasured = JSON.stringify(letters) === JSON.stringify(this.#letters);
    this.#letters = letters;
    const drawn = JSON.stringify(told);
    if (drawn === this.#drawn) return isMeasured;
    this.#drawn = drawn;
    this.#open.replaceChildren(...those([list(say("page-label-open"), told.not_checked.map(sourced))]));
    this.#told.replaceChildren(...said(told));
    return isMeasured;
  }
}

/** What is said of it, as a question's parts. @param {{[name: string]: unknown}} said */
function query(said) {
  const asked = new URLSearchParams();
  for (const [name, value] of Object.entries(said)) {
    if (Array.isArray(value)) value.forEach((each) => asked.append(name, String(each)));
    else if (value !== null && value !== undefined && (value !== "" || name === "maker"))
      asked.set(name, String(value));
  }
  return asked;
}

/** @param {number} um */
const mm = (um) => `${(um / MM).toFixed(2).replace(".", point())}\u00a0mm`;
/** @param {{readonly says?: string, readonly what?: string, readonly source: string}} rule */
const sourced = ({ says, what, source }) =>
  h("li", {}, says ?? what, h("span", { class: "soft small" }, ` (${source})`));

/** @param {string} title @param {readonly Node[]} rows */
const list = (title, rows) =>
  rows.length
    ? h(
        "section",
        { "aria-label": title },
        h("h2", { class: "section-name" }, title),
        h("ul", { class: "plain" }, rows),
      )
    : null;

/** @param {Label} told @returns {HTMLElement[]} */
function said({ market, heights, needs, warnings, checked, law, ingredients, shortfall_mg }) {
  /** @param {"list" | "net" | "digits"} of @param {LetterHeight} height */
  const height = (of, { least_um: least, has_um: has, fits }) =>
    h(
      "li",
      { class: fits === false ? "short" : null },
      say("page-label-letter", { of, has: mm(has ?? 0) }),
      " ",
      least === null
        ? say("page-label-letter-no-least")
        : say("page-label-letter-least", { least: mm(least) }),
    );
  const unsure = ingredients.filter(({ sure }) => !sure).map(({ name }) => name);
  const missing = needs.filter(({ there }) => !there);
  return those([
    h("p", { class: "law" }, law),
    list(
      say("page-label-look"),
      those([
        ...warnings.map(sourced),
        unsure.length ? h("li", {}, say("page-label-unsure", { names: sayAll(unsure) })) : null,
      ]),
    ),
    list(say("page-label-missing"), missing.map(sourced)),
    list(say("page-label-letters"), [
      height("list", heights.list),
      height(market === "us" ? "net" : "digits", heights.net),
    ]),
    shortfall_mg === null ? null : h("p", {}, say("page-label-shortfall", { mass: mass(shortfall_mg, 100) })),
    list(say("page-label-checked"), checked.map(sourced)),
  ]);
}

export const registerLabelScreen = () => define("label-screen", LabelScreen);
