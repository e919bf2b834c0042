// The sheets on which something about the shelf is written: a lot that came, an ingredient's card,
// and what is written off.
//
//   await askLot({ shelf, today, currency, ingredient, isMaker })   // { entries, verdict }, or null
//   await askPaper({ about, name })                        // [{kind, body}] entries to keep, or null
//   await askCard({ key, card })                           // the same
//   await askLoss({ lot, name, left })                     // the same

import { decimal, decimalMoney, plainNumber, readAmount, readDensity } from "../bench/amounts.js";
import { saysOf } from "../bench/errors.js";
import { halfEven } from "../bench/whole.js";
import { paperFile } from "../connected.js";
import { combobox } from "./combo.js";
import { compared, knownOf, knownRow, picked } from "./known.js";
import { choicesOf } from "./recipe-fields.js";
import { INGREDIENT_KINDS } from "./recipe-forms.js";
import { h, sameData, setText, show } from "./dom.js";
import { askForm, field, refuse, submit } from "./form.js";
import { canScan, scanCode } from "./scanner.js";
import { amountOf } from "./stock.js";
import { idFor } from "./words.js";
import { point, say } from "../words.js";
/** @import { Card, Hazard, LotVerdict, PaperKind, Price, Proposal } from "../../bench/shapes/page" */
/** @import { Shelf, ShelfLot } from "../../bench/shapes/page" */
/** @import { Child, Props } from "../../types/dom" */
/** @import { Known, KnownField } from "./known.js" */
/** @import { ShelfSaid } from "../../types/keep" */

/** @typedef {{-readonly [P in keyof Card]: Card[P]}} Kept a card that is being written */

const NEW = "";
/** Of an ingredient; beside those there is what only a step has. @type {Hazard[]} */
const HAZARDS = ["powder", "alcohol", "hot_fat", "hot_soap", "slippery", "superheated"];
const ALL_HAZARDS = [...HAZARDS, "mixer", "wet_sockets"];

/** The usual cautions of a card; what a later version may know stands as it is. @param {readonly string[]} hazards */
export function hazardsWords(hazards) {
  const known = new Map(choicesOf({ of: "hazard", codes: ALL_HAZARDS }));
  return hazards.map((each) => known.get(each) ?? each).join(", ");
}

/** @param {Props<HTMLInputElement>} [props] */
const text = (props = {}) => h("input", { autocomplete: "off", ...props });
/** @param {HTMLInputElement | HTMLTextAreaElement} input */
const written = (input) => input.value.trim();

/** @param {HTMLInputElement} input @param {string} says */
function needed(input, says) {
  const value = written(input);
  if (value) return value;
  input.focus();
  throw refuse(says);
}

/** @param {string} text */
const unspaced = (text) => text.replace(/\s/g, "");

/**
 * {mg} or {count} of an amount as people write it; pieces also as the shelf says them.
 * @param {HTMLInputElement} input @returns {{mg?: number, count?: number}}
 */
export function readMuch(input) {
  const amount = needed(input, say("page-shelf-need-much"));
  const said = Number.parseInt(amount, 10);
  const shown = say("page-shelf-pieces", { count: said });
  if (said > 0 && unspaced(amount) === unspaced(shown)) return { count: said };
  const { kind, value } = readAmount(amount, null);
  if (kind === "mass") return { mg: halfEven(value[0], value[1] * 1000n) };
  const count = Number(value[0]) / Number(value[1]);
  if (kind === "counted" && Number.isInteger(count)) return { count };
  throw refuse(say("page-shelf-need-mass-or-pieces"));
}

/**
 * A price as the maker writes it, or undefined.
 * @param {HTMLInputElement} amount @param {HTMLInputElement} delivery @param {HTMLInputElement} currency
 * @param {HTMLInputElement} percent @param {HTMLInputElement} included @returns {Price | undefined}
 */
function readPrice(amount, delivery, currency, percent, included) {
  if (!written(amount) && !written(delivery)) return undefined;
  const brought = written(delivery) && decimalMoney(written(delivery), "delivery");
  const price = {
    amount: decimalMoney(written(amount) || "0", "price"),
    ...(brought ? { delivery: brought } : {}),
    currency: needed(currency, say("page-shelf-need-currency")).toUpperCase(),
  };
  if (!/^[A-Z]{3}$/.test(price.currency)) throw refuse(say("page-shelf-no-currency"));
  if (written(percent)) {
    const tax = { percent: decimal(plainNumber(written(percent)), "tax"), included: included.checked };
    return { ...price, tax };
  }
  return price;
}

/** The cards by name. @param {Shelf} shelf */
const cardsOf = (shelf) =>
  Object.entries(shelf.ingredients)
    .flatMap(([key, { card }]) => (card ? [{ key, name: card.name }] : []))
    .sort((one, other) => one.name.localeCompare(other.name));

/**
 * What a lot says of itself, as fields; `read` gives it as it is to be kept.
 * @param {Partial<ShelfLot>} lot what stands in them
 * @param {{today?: string, currency?: string, status?: Child}} more
 */
function lotFields(lot, { today = "", currency = "", status = null }) {
  const { price, mg, count } = lot;
  const had = mg ?? count;
  const supplier = text({ value: lot.supplier ?? "" });
  const number = text({ value: lot.number ?? "" });
  const much = text({
    value: had === null || had === undefined ? "" : amountOf({ count: count ?? null }, had),
    placeholder: say("page-shelf-much-hint"),
  });
  const best = text({ type: "date", value: lot.best_before ?? "" });
  const received = text({ type: "date", value: lot.received_on ?? today });
  const hint = say("page-shelf-price-hint");
  /** @param {string | undefined} kept */
  const decimal = (kept = "") =>
    text({ inputmode: "decimal", placeholder: hint, value: kept.replace(".", point()) });
  const amount = decimal(price?.amount);
  const money = text({ value: price?.currency ?? currency, maxlength: 3, placeholder: "EUR" });
  const delivery = decimal(price?.delivery);
  const percent = decimal(price?.tax?.percent);
  percent.placeholder = "19";
  const included = h("input", { type: "checkbox", checked: price?.tax?.included ?? true });
  const code = text({ value: lot.code ?? "" });
  const scan = async () => {
    const found = await scanCode({ title: say("page-shelf-scan-package") });
    if (found) code.value = found;
  };
  /** @param {Child[]} both */
  const two = (...both) => h("div", { class: "two" }, both);
  const rows = [
    two(field(say("page-shelf-much"), much), field(say("page-shelf-number"), number)),
    field(say("page-shelf-supplier"), supplier),
    two(field(say("page-shelf-best"), best), field(say("page-shelf-received-on"), received)),
    two(field(say("page-shelf-price"), amount), field(say("page-shelf-currency"), money)),
    two(field(say("page-shelf-delivery"), delivery), field(say("page-shelf-tax"), percent)),
    h("label", { class: "choice" }, included, h("span", {}, say("page-shelf-tax-included"))),
    status,
    h(
      "div",
      { class: canScan() ? "with-scan" : null },
      field(say("page-shelf-code"), code),
      canScan()
        ? h("button", { type: "button", class: "outlined", onclick: scan }, say("page-shelf-scan"))
        : null,
    ),
  ];
  const stood = much.value;
  const read = () => ({
    number: needed(number, say("page-shelf-need-number")),
    ...(stood && much.value === stood
      ? mg === null
        ? { count: had ?? 0 }
        : { mg: had ?? 0 }
      : readMuch(much)),
    received_on: needed(received, say("page-shelf-need-day")),
    supplier: written(supplier) || undefined,
    best_before: written(best) || undefined,
    code: written(code) || undefined,
    price: readPrice(amount, delivery, money, percent, included),
  });
  return { rows, read };
}

/** A body without what is not said. @template {object} T @param {T} body @returns {T} */
const said = (body) =>
  /** @type {T} */ (Object.fromEntries(Object.entries(body).filter(([, value]) => value !== undefined)));

/**
 * @param {{shelf: Shelf, today: string, currency?: string, ingredient?: string | null, code?: string,
 *   isMaker: boolean}} asked
 * @returns {Promise<{entries: ShelfSaid[], verdict: LotVerdict | null} | null>}
 */
export function askLot({ shelf, today, currency = "", ingredient = null, code = "", isMaker }) {
  const known = cardsOf(shelf);
  /** @type {HTMLSelectElement} */
  const pick = h(
    "select",
    { onchange: () => show(fresh, pick.value === NEW) },
    known.map(({ key, name: label }) => h("option", { value: key, selected: key === ingredient }, label)),
    h("option", { value: NEW, selected: known.length === 0 }, say("page-shelf-new")),
  );
  const name = text();
  const inci = text({ placeholder: say("page-shelf-inci-hint") });
  const fresh = h(
    "div",
    { class: "stack" },
    field(say("page-shelf-trade-name"), name),
    field(say("page-shelf-inci"), inci),
  );
  show(fresh, known.length === 0);
  const status = h(
    "select",
    {},
    h("option", { value: "" }, say("page-shelf-status-none")),
    h("option", { value: "accepted" }, say("page-shelf-status-accepted")),
    h("option", { value: "held" }, say("page-shelf-status-held")),
  );
  const lot = lotFields(
    { code },
    { today, currency, status: isMaker ? field(say("page-shelf-status"), status) : null },
  );
  const rows = [field(say("page-shelf-what"), pick), fresh, ...lot.rows];
  return askForm(say("page-shelf-receive"), submit(say("page-shelf-put")), rows, () => {
    /** @type {ShelfSaid[]} */
    const entries = [];
    let key = pick.value;
    if (key === NEW) {
      key = idFor(needed(name, say("page-shelf-need-name")), new Set(Object.keys(shelf.ingredients)));
      entries.push({
        kind: "described",
        body: {
          ingredient: key,
          card: { name: written(name), ...(written(inci) && { inci: written(inci) }) },
        },
      });
    }
    entries.push({ kind: "received", body: said({ ingredient: key, ...lot.read() }) });
    return { entries, verdict: LOT_VERDICTS.find((each) => each === status.value) ?? null };
  });
}

/**
 * What of a lot was written wrong: an entry that says those fields anew, and no others.
 * @param {{id: string, lot: ShelfLot, shelf: Shelf, isMaker: boolean}} asked
 * @returns {Promise<ShelfSaid[] | null>}
 */
export function askMending({ id, lot, shelf, isMaker }) {
  const pick = h(
    "select",
    {},
    cardsOf(shelf).map(({ key, name }) =>
      h("option", { value: key, selected: key === lot.ingredient }, name),
    ),
  );
  const fields = lotFields(lot, {});
  const rows = [field(say("page-shelf-what"), pick), ...fields.rows];
  return askForm(
    say("page-shelf-mend-lot", { name: lot.number }),
    submit(say("page-common-save")),
    rows,
    () => {
      const now = { ingredient: pick.value || lot.ingredient, ...fields.read() };
      if ((now.mg === undefined) !== (lot.mg === null))
        throw refuse(say(lot.mg === null ? "page-shelf-need-pieces" : "page-shelf-need-mass"));
      const keys = /** @type {(keyof typeof now)[]} */ (Object.keys(now));
      const other = keys.filter((key) => !sameData(now[key] ?? null, lot[key] ?? null));
      // A helper was never told the price: that its field is empty says nothing.
      const heard = other.filter((key) => isMaker || key !== "price" || now.price !== undefined);
      if (!heard.length) throw refuse(say("page-shelf-need-change"));
      const without = heard.filter((key) => now[key] === undefined).sort();
      const body = said(Object.fromEntries(heard.map((key) => [key, now[key]])));
      return [{ kind: "mended", body: { lot: id, ...body, ...(without.length ? { without } : {}) } }];
    },
  );
}

/** @type {readonly PaperKind[]} */
const PAPERS = ["safety_sheet", "ifra_certificate", "analysis", "other"];
/** @type {readonly LotVerdict[]} */
export const LOT_VERDICTS = ["accepted", "held", "rejected"];

/**
 * A paper that was seen: what it is, where it is, until when it is valid, and its file.
 * @param {{about: {lot: string} | {ingredient: string}, name: string}} asked
 * @returns {Promise<{said: ShelfSaid, file: {blob: Blob, sha256: string} | null} | null>}
 */
export function askPaper({ about, name }) {
  /** @type {HTMLSelectElement} */
  const pick = h(
    "select",
    { onchange: () => show(ofScent, pick.value === "ifra_certificate") },
    PAPERS.map((paper) => h("option", { value: paper }, say("page-shelf-paper-kind", { paper }))),
  );
  const reference = text({ maxlength: 2000 });
  const dated = text({ type: "date" });
  const expires = text({ type: "date" });
  const amendment = text({ placeholder: "51" });
  const category = text({ placeholder: "9" });
  const ofScent = h(
    "div",
    { class: "two" },
    field(say("page-shelf-paper-amendment"), amendment),
    field(say("page-shelf-paper-category"), category),
  );
  show(ofScent, false);
  /** @type {Awaited<ReturnType<Awaited<ReturnType<typeof paperFile>>["paperFile"]>> | null} */
  let file = null;
  let isReading = false;
  const trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  const chosen = h("input", {
    type: "file",
    accept: "application/pdf,image/*",
    onchange: async () => {
      const [given] = chosen.files ?? [];
      file = null;
      show(trouble, false);
      if (!given) return;
      isReading = true;
      try {
        file = await (await paperFile()).paperFile(given);
        if (!written(reference)) reference.value = given.name;
      } catch (error) {
        const says = saysOf(error);
        if (!says) throw error;
        chosen.value = "";
        setText(trouble, says);
        show(trouble, true);
      } finally {
        isReading = false;
      }
    },
  });
  const rows = [
    field(say("page-shelf-paper-what"), pick),
    field(say("page-shelf-paper-file"), chosen),
    trouble,
    field(say("page-shelf-paper-reference"), reference),
    ofScent,
    h(
      "div",
      { class: "two" },
      field(say("page-shelf-paper-dated"), dated),
      field(say("page-shelf-paper-expires"), expires),
    ),
  ];
  return askForm(say("page-shelf-paper-on", { name }), submit(say("page-common-save")), rows, () => {
    if (isReading) throw refuse(say("page-shelf-paper-reading"));
    const paper = PAPERS.find((each) => each === pick.value) ?? "other";
    const isOfScent = paper === "ifra_certificate";
    const body = {
      ...about,
      paper,
      reference: needed(reference, say("page-shelf-need-reference")),
      ...(written(dated) ? { dated: written(dated) } : {}),
      ...(written(expires) ? { expires: written(expires) } : {}),
      ...(isOfScent && written(amendment) ? { amendment: written(amendment) } : {}),
      ...(isOfScent && written(category) ? { category: written(category) } : {}),
      ...(file ? { media: file.media } : {}),
    };
    return { said: { kind: "papered", body }, file };
  });
}

/**
 * A CAS number whose last digit fits the others: each times its place from the right, modulo ten.
 * @param {HTMLInputElement} input
 */
function checkedCas(input) {
  const found = /^([1-9][0-9]{1,6})-([0-9]{2})-([0-9])$/.exec(written(input));
  const sum = [...(found ? found[1] + found[2] : "")]
    .reverse()
    .reduce((total, digit, place) => total + Number(digit) * (place + 1), 0);
  if (!found || sum % 10 !== Number(found[3])) throw refuse(say("shelf-cas-wrong"));
  return found[0];
}

/** @param {readonly string[] | undefined} list */
const lines = (list) => (list ?? []).join("\n");
/** @param {HTMLTextAreaElement} area */
const read = (area) =>
  area.value
    .split("\n")
    .map((line) => line.trim())
    .filter(Boolean);

/** What a card's form has fields for. */
const OF_CARD = /** @type {const} */ (["kind", "inci", "cas", "density", "hazards"]);

/**
 * `there`: the card as it is by the time that this one is kept; what was not written in here stays as it is there.
 * `propose`: what a name is taken for, as the server tells it; null where it does not answer.
 * @param {{key: string, card: Card | null, there?: () => Card | null,
 *   propose: (name: string) => Promise<readonly Proposal[] | null>}} asked
 * @returns {Promise<ShelfSaid[] | null>}
 */
export function askCard({ key, card, there = () => card, propose }) {
  const name = text({ value: card?.name ?? "" });
  const inci = text({ value: card?.inci ?? "" });
  const cas = text({ value: card?.cas ?? "", placeholder: "144-55-8" });
  /** @param {readonly string[] | undefined} list */
  const area = (list) => h("textarea", { rows: 2 }, lines(list));
  const answers = area(card?.answers_to);
  const limits = area(card?.limits);
  const hazards = HAZARDS.map((value) => ({
    value,
    says: hazardsWords([value]),
    box: h("input", { type: "checkbox", checked: card?.hazards?.includes(value) }),
  }));
  const note = h("textarea", { rows: 3 }, card?.note ?? "");
  const density = text({
    value: card?.density?.g_per_ml ?? "",
    inputmode: "decimal",
    placeholder: say("page-shelf-density-hint"),
  });
  const source = text({
    value: card?.density?.source ?? "",
    placeholder: say("page-shelf-density-from-hint"),
  });
  const kind = h(
    "select",
    {},
    h("option", { value: "" }, "\u2013"),
    choicesOf(INGREDIENT_KINDS).map(([value, label]) =>
      h("option", { value, selected: value === card?.kind }, label),
    ),
  );
  const kindOf = () => /** @type {Card["kind"] | ""} */ (kind.value);
  /** What the fields say now, as a card writes it. @returns {Known} */
  const saidNow = () =>
    picked(
      /** @type {Partial<Card>} */ ({
        kind: kindOf(),
        inci: written(inci),
        cas: written(cas),
        ...(written(density) && {
          density: { g_per_ml: plainNumber(written(density)), source: written(source) },
        }),
        hazards: hazards.filter(({ box }) => box.checked).map(({ value }) => value),
      }),
    );
  /** @param {Known} known @param {readonly KnownField[]} fields */
  const fill = (known, fields) => {
    for (const each of fields) {
      if (each === "kind") kind.value = known.kind ?? "";
      if (each === "inci") inci.value = known.inci ?? "";
      if (each === "cas") cas.value = known.cas ?? "";
      if (each === "hazards")
        for (const { value, box } of hazards) box.checked = Boolean(known.hazards?.includes(value));
      if (each === "density" && known.density)
        [density.value, source.value] = [known.density.g_per_ml.replace(".", point()), known.density.source];
    }
  };
  const beside = h("div", { class: "known", role: "status" });
  const meet = async () => {
    const asked = written(name);
    const proposal = (await propose(asked))?.find(({ taken }) => taken) ?? null;
    if (asked !== written(name)) return;
    const { form: _, ...known } = knownOf(proposal, null);
    const write = () =>
      beside.replaceChildren(
        ...knownRow({
          proposal,
          isOfCard: false,
          known,
          mine: saidNow(),
          fields: OF_CARD,
          take: (fields) => {
            fill(known, fields);
            write();
          },
        }),
      );
    write();
  };
  const list = combobox(name, {
    says: say("page-known-list"),
    now: () => [],
    later: async (typed) => (await propose(typed)) ?? [],
    take: ({ about }) => {
      fill(about, compared(picked(about), saidNow(), OF_CARD).fresh);
      void meet();
    },
  });
  name.addEventListener("change", () => void meet());
  if (card) void meet();
  const rows = [
    h("div", {}, field(say("page-shelf-trade-name"), name), list),
    beside,
    field(say("page-recipe-field-kind"), kind),
    field(say("page-shelf-inci"), inci),
    field(say("page-shelf-cas"), cas),
    field(say("page-shelf-answers"), answers),
    field(say("page-shelf-limits"), limits),
    h(
      "fieldset",
      { class: "setting" },
      h("legend", { class: "caps" }, say("page-shelf-hazards")),
      hazards.map(({ says, box }) => h("label", { class: "choice" }, box, h("span", {}, says))),
    ),
    field(say("page-shelf-hazard-note"), note),
    h(
      "div",
      { class: "two" },
      field(say("page-shelf-density-ml"), density),
      field(say("page-shelf-density-from"), source),
    ),
  ];
  return askForm(
    card ? card.name : say("page-shelf-card-new"),
    submit(say("page-shelf-save-card")),
    rows,
    () => {
      /** @type {{[P in keyof Kept]?: Kept[P]}} */
      const kept = { ...there() };
      /** @param {keyof Kept} part @param {unknown} value */
      const isMine = (part, value) => !sameData(value, card?.[part]);
      /**
       * An empty text or list is none.
       * @template {"name" | "inci" | "cas" | "answers_to" | "limits" | "hazards" | "note"} P
       * @param {P} part @param {NonNullable<Kept[P]>} value
       */
      const set = (part, value) => {
        if (!isMine(part, value.length ? value : undefined)) return;
        if (value.length) kept[part] = value;
        else delete kept[part];
      };
      set("name", needed(name, say("page-shelf-need-name")));
      if (isMine("kind", kindOf() || undefined)) {
        if (kindOf()) kept.kind = kindOf() || undefined;
        else delete kept.kind;
      }
      set("inci", written(inci));
      set("cas", written(cas) && checkedCas(cas));
      set("answers_to", read(answers));
      set("limits", read(limits));
      const others = (card?.hazards ?? []).filter((each) => !HAZARDS.includes(each));
      set(
        "hazards",
        [...hazards.filter(({ box }) => box.checked).map(({ value }) => value), ...others].sort(),
      );
      set("note", written(note));
      if (written(density)) readDensity(written(density)); // or it is refused, in words
      const dense = written(density)
        ? {
            ...card?.density,
            g_per_ml: plainNumber(written(density)),
            source: needed(source, say("page-shelf-need-source")),
          }
        : undefined;
      if (isMine("density", dense)) kept.density = dense;
      if (!kept.density) delete kept.density;
      const { name: called = written(name) } = kept;
      return [{ kind: "described", body: { ingredient: key, card: { ...kept, name: called } } }];
    },
  );
}

/** @param {{lot: string, name: string, measure: "mg" | "count"}} asked @returns {Promise<ShelfSaid[] | null>} */
export function askLoss({ lot, name, measure }) {
  const much = text({ placeholder: say("page-shelf-gone-hint", { measure }) });
  const why = text({ placeholder: say("page-shelf-why-hint") });
  return askForm(
    say("page-shelf-loss", { name }),
    submit(say("page-shelf-write-off")),
    [field(say("page-shelf-gone"), much), field(say("page-shelf-why"), why)],
    () => {
      const amount = readMuch(much);
      if (!(measure in amount))
        throw refuse(say(measure === "mg" ? "page-shelf-need-mass" : "page-shelf-need-pieces"));
      return [
        {
          kind: "wrote_off",
          body: { lot, ...amount, why: needed(why, say("page-shelf-need-why")) },
        },
      ];
    },
  );
}
