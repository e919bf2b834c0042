// Labels on a sheet of them: which sheet, from which position and how many; printed by the page at true size, or as
// the server's PDF. The maker's own sheets are kept with the studio's settings.
//
//   const choice = sheetChoice({ own, count, again, keep });     // choice.node is its form
//   choice.chosen()   // {sheet: null or a LabelSheet, start, count}
//   printSheets(sheet, start, nodes);                            // drawn labels, one after the other
//   await askCounted({ count, market, text });                   // an entry: labels counted, or null
//   const sheet = await askSheet(own);                           // one of the maker's own, or null

import { plainNumber } from "../bench/amounts.js";
import { COMMON, INCH_UM, labelPlaces, PAPERS, sheetFault, sheetTitle } from "../bench/label-sheets.js";
import { openDialog } from "./dialog.js";
import { h, setText, show } from "./dom.js";
import { askForm, field, refuse, submit } from "./form.js";
import { drawPlate } from "./label-plate.js";
import { back } from "./sheets.js";
import { makeStepper } from "./stepper.js";
import { say } from "../words.js";
/** @import { LabelledBody, LabelSheet, Market, Paper, PlateLine } from "../../bench/shapes/page" */

const UM = 1000;
const STICKER = { width_mm: 63, height_mm: 38 };
/** @type {readonly Paper[]} */
const KINDS = ["a4", "letter"];
/** @type {readonly (keyof LabelSheet)[]} */
const LENGTHS = ["width_um", "height_um", "left_um", "top_um", "across_um", "down_um"];

/** @param {number} value @param {number} most @param {() => void} [again] */
const whole = (value, most, again) =>
  h("input", {
    type: "number",
    inputmode: "numeric",
    autocomplete: "off",
    min: 1,
    max: most,
    value: String(value),
    oninput: again,
  });
/** @param {HTMLInputElement} input */
const read = ({ value, max }) => Math.min(Math.max(Math.round(Number(value)) || 1, 1), Number(max));

/**
 * `count`: how many labels there are to print. `keep`: what to do with a sheet that the maker wrote; without it there
 * is no way to write one here.
 * @param {{own: readonly LabelSheet[], count: number, again: () => void, keep?: (sheet: LabelSheet) => void}} given
 */
export function sheetChoice({ own, count, again, keep }) {
  let known = own;
  const sheets = () => [...known, ...COMMON];
  const change = () => {
    show(places, sheet.value !== "");
    again();
  };
  const sheet = h("select", { onchange: change });
  const start = whole(1, 1000, again);
  const many = whole(count, 1000, again);
  const places = h(
    "div",
    { class: "two" },
    field(say("page-label-start"), start),
    field(say("page-label-count"), many),
  );
  const chosen = () => ({
    sheet: sheets().find(({ name }) => name === sheet.value) ?? null,
    start: read(start),
    count: read(many),
  });
  /** @param {string} name */
  const write = (name) => {
    sheet.replaceChildren(
      h("option", { value: "" }, say("page-label-one")),
      ...sheets().map((each) => h("option", { value: each.name }, sheetTitle(each))),
    );
    sheet.value = name;
    show(places, name !== "");
  };
  write("");
  const asks = async () => {
    const written = await askSheet();
    if (!written || !keep) return;
    known = [...known.filter(({ name }) => name !== written.name), written];
    write(written.name);
    again();
    keep(written);
  };
  const node = h(
    "div",
    { class: "stack no-print" },
    field(say("page-label-sheet"), sheet),
    places,
    keep ? h("button", { type: "button", class: "quiet", onclick: asks }, say("page-label-own-sheet")) : null,
  );
  return { node, chosen };
}

/**
 * How many labels were printed, are on pieces and were binned: they are counted once the pieces have them.
 * @param {{count: number, market: Market, text: string}} about count: of the pieces
 * @returns {Promise<LabelledBody | null>}
 */
export function askCounted({ count, market, text }) {
  /** @param {string} label @param {number} value */
  const many = (label, value) =>
    makeStepper({ label, value, least: 0, most: 10_000, unit: label, onchange: () => {} });
  const printed = many(say("page-label-printed"), count);
  const on = many(say("page-label-on-pieces"), count);
  const binned = many(say("page-label-binned"), 0);
  const rows = [printed.node, on.node, binned.node];
  return askForm(say("page-label-counted"), submit(say("page-common-save")), rows, () => {
    if (on.value + binned.value > printed.value) throw refuse(say("page-label-too-many"));
    return { market, printed: printed.value, on: on.value, binned: binned.value, ...(text ? { text } : {}) };
  });
}

/**
 * Stickers for lots: as they will look, on which sheet, and the way to print them.
 * @param {{name: string, lots: readonly {id: string, plate: readonly PlateLine[]}[], own: readonly LabelSheet[]}} given
 */
export function askStickers({ name, lots, own }) {
  const stage = h("div", { class: "label-stage" });
  const trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  const pdf = h("a", { class: "button quiet", target: "_blank" }, say("page-label-pdf"));
  const size = () => {
    const { sheet } = choice.chosen();
    return sheet ? { width_mm: sheet.width_um / UM, height_mm: sheet.height_um / UM } : STICKER;
  };
  /** Every sticker, as often as it is wanted. */
  const drawn = () =>
    lots.flatMap(({ plate }) => {
      const { node, fits } = drawPlate(plate, size(), stage);
      setText(trouble, say("page-label-no-fit"));
      show(trouble, !fits);
      return Array.from(
        { length: choice.chosen().count },
        () => /** @type {HTMLElement} */ (node.cloneNode(true)),
      );
    });
  const again = () => {
    const { sheet, start, count } = choice.chosen();
    drawn();
    const asked = new URLSearchParams(lots.map(({ id }) => ["lot", id]));
    if (sheet)
      for (const [key, value] of Object.entries({ sheet: sheet.name, start, count }))
        asked.set(key, String(value));
    pdf.href = `/api/v1/lot-stickers.pdf?${asked}`;
    show(go, sheet !== null);
  };
  const choice = sheetChoice({ own, count: 1, again });
  const go = h(
    "button",
    {
      type: "button",
      class: "copper",
      onclick: () => {
        const { sheet, start } = choice.chosen();
        if (sheet) printSheets(sheet, start, drawn());
      },
    },
    say("page-label-print"),
  );
  const title = say("page-label-stickers", { name });
  /** @type {HTMLDialogElement} */
  const dialog = h(
    "dialog",
    { "aria-label": title },
    h(
      "div",
      { class: "stack" },
      h("h2", {}, title),
      stage,
      trouble,
      choice.node,
      go,
      pdf,
      h("p", { class: "soft small" }, say("page-label-code-says")),
      back(),
    ),
  );
  const closed = openDialog(dialog);
  again();
  return closed;
}

/**
 * A sheet of the maker's own, measured by hand; null when it was left.
 * @returns {Promise<LabelSheet | null>}
 */
export function askSheet() {
  const name = h("input", { autocomplete: "off", maxlength: 60, placeholder: say("page-label-sheet-hint") });
  const paper = h(
    "select",
    {},
    KINDS.map((value) => h("option", { value }, say("page-label-paper", { paper: value }))),
  );
  const unit = h(
    "select",
    {},
    ["mm", "in"].map((value) => h("option", { value }, say("page-label-unit", { unit: value }))),
  );
  const columns = whole(1, 20);
  const rows = whole(1, 50);
  const lengths = LENGTHS.map((key) => ({
    key,
    input: h("input", { autocomplete: "off", inputmode: "decimal" }),
  }));
  const asked = [
    field(say("page-label-sheet-name"), name),
    h(
      "div",
      { class: "two" },
      field(say("page-label-paper-kind"), paper),
      field(say("page-label-unit-kind"), unit),
    ),
    h(
      "div",
      { class: "two" },
      field(say("page-label-columns"), columns),
      field(say("page-label-rows"), rows),
    ),
    [0, 2, 4].map((at) =>
      h(
        "div",
        { class: "two" },
        lengths
          .slice(at, at + 2)
          .map(({ key, input }) => field(say("page-label-length", { of: key }), input)),
      ),
    ),
  ].flat();
  return askForm(say("page-label-own-sheet"), submit(say("page-label-sheet-keep")), asked, () => {
    const each = unit.value === "in" ? INCH_UM : UM;
    const um = Object.fromEntries(lengths.map(({ key, input }) => [key, lengthOf(input.value, each)]));
    const sheet = /** @type {LabelSheet} */ ({
      name: name.value.trim(),
      paper: KINDS.find((kind) => kind === paper.value) ?? "a4",
      columns: read(columns),
      rows: read(rows),
      ...um,
    });
    if (!sheet.name || Object.values(um).includes(null)) throw refuse(say("page-label-sheet-wants"));
    const fault = sheetFault(sheet);
    if (fault) throw refuse(say("label-sheet-fault", { fault }));
    return sheet;
  });
}

/**
 * A length in µm as people write it, "63,5" or "2 5/8"; null where it is none.
 * @param {string} text @param {number} each
 */
function lengthOf(text, each) {
  const plain = plainNumber(text);
  const [, units = "0", top, bottom] = /^(?:(\d+) +)?(\d+)\/(\d+)$/.exec(plain) ?? [];
  const value = top
    ? Number(units) + Number(top) / Number(bottom)
    : plain === ""
      ? Number.NaN
      : Number(plain);
  return Number.isFinite(value) && value >= 0 ? Math.round(value * each) : null;
}

/** @param {number} um */
const mm = (um) => `${um / UM}mm`;

/**
 * Prints labels as they are drawn, one after the other from the start position, and nothing else of the page.
 * @param {LabelSheet} sheet @param {number} start @param {readonly HTMLElement[]} nodes
 */
export function printSheets(sheet, start, nodes) {
  const [width, height] = PAPERS[sheet.paper];
  const turn = nodes.values();
  const pages = labelPlaces(sheet, start, nodes.length).map((places) => {
    const page = h("div", { class: "label-page", "data-paper": sheet.paper });
    Object.assign(page.style, { width: mm(width), height: mm(height) });
    for (const { x_um, y_um } of places) {
      const label = turn.next().value;
      if (!label) break;
      Object.assign(label.style, { left: mm(x_um), top: mm(y_um) });
      page.append(label);
    }
    return page;
  });
  const root = document.documentElement;
  const all = h("div", { class: "label-pages" }, pages);
  document.body.append(all);
  root.dataset.prints = "labels";
  addEventListener(
    "afterprint",
    () => {
      all.remove();
      delete root.dataset.prints;
    },
    { once: true },
  );
  print();
}
