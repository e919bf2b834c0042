// The sheets on which it is written what becomes of finished pieces.
//
//   await askLeaving({ title, batches, outlets, today, last })   // { entries, last }, or null
//   await askComplaint({ run, name, outlets })                   // entries, or null
//   await askAsLot({ batch, name, shelf, today, newId })         // the same

import { readAmount } from "../bench/amounts.js";
import { pick } from "../bench/lots.js";
import { nameKey } from "../bench/shelf.js";
import { halfEven } from "../bench/whole.js";
import { h, setText, show } from "./dom.js";
import { askForm, field, refuse, submit } from "./form.js";
import { makeStepper } from "./stepper.js";
import { idFor } from "./words.js";
import { say } from "../words.js";
/** @import { BatchPieces, ComplainedBody, Shelf } from "../../bench/shapes/page" */
/** @import { OutletNamed, ShelfSaid } from "../../types/keep" */

/** @typedef {"sold" | "given" | "returned" | "binned" | "sampled"} Way */
/** @typedef {{way: Way, outlet: string}} Last */

/** @type {readonly Way[]} */
const WAYS = ["sold", "given", "returned", "binned", "sampled"];
const AT_AN_OUTLET = new Set(["sold", "given", "returned"]);
const GOES = new Set(["sold", "given"]); // to somebody who relies on it
const MOST = 10_000;

/** What the picking of lots knows a batch's pieces by. @param {BatchPieces} batch */
const offered = ({ run, in_stock: left, best_before, made_on: received_on, release }) => ({
  lot: run,
  left,
  best_before,
  received_on,
  barred: release === "held" || release === "rejected",
});

/** @param {BatchPieces} batch */
export const batchName = ({ number, title }) => number ?? title;

/** Whether it may go, where it is not released. @param {BatchPieces} batch */
export const releaseWords = ({ release }) =>
  release === "released" ? "" : say("page-pieces-release", { release: release ?? "none" });

/** @param {readonly OutletNamed[]} outlets @param {string} chosen */
const outletPick = (outlets, chosen) =>
  h(
    "select",
    {},
    h("option", { value: "" }, say("page-pieces-nobody")),
    outlets.flatMap(({ id, name }) =>
      name === null ? [] : [h("option", { value: id, selected: id === chosen }, name)],
    ),
  );

/**
 * Pieces that leave or come back; those that go off first are proposed. `batches` are of one recipe, and `duties`
 * tells how many of its duties of selling are open.
 * @param {{title: string, batches: readonly BatchPieces[], outlets: readonly OutletNamed[], today: string,
 *   last: Last, duties: Promise<number>}} asked
 * @returns {Promise<{entries: ShelfSaid[], last: Last} | null>}
 */
export function askLeaving({ title, batches, outlets, today, last, duties }) {
  let open = 0;
  const way = h(
    "select",
    { onchange: () => turn() },
    WAYS.map((each) =>
      h("option", { value: each, selected: each === last.way }, say("page-pieces-way", { way: each })),
    ),
  );
  const many = makeStepper({
    label: say("page-pieces-how-many"),
    value: 1,
    least: 1,
    most: MOST,
    unit: "",
    onchange: () => turn(),
  });
  const of = h(
    "select",
    { onchange: () => turn() },
    h("option", { value: "" }, say("page-pieces-first-out")),
    batches.map((batch) => h("option", { value: batch.run }, batchName(batch))),
  );
  const at = outletPick(outlets, last.outlet);
  const why = h("input", { autocomplete: "off", maxlength: 2000 });
  const proposed = h("p", { class: "soft small", role: "status" });
  const due = h("p", { class: "soft small", role: "status" });
  const [atRow, whyRow] = [field(say("page-pieces-outlet"), at), field(say("page-pieces-why"), why)];
  const picked = () => pick(many.value, batches.map(offered), today);

  function turn() {
    show(atRow, AT_AN_OUTLET.has(way.value));
    show(whyRow, way.value === "binned");
    const named = new Map(batches.map((batch) => [batch.run, batch]));
    const lines = (of.value ? [{ lot: of.value, take: many.value }] : picked().picked).map(
      ({ lot, take }) => {
        const batch = /** @type {BatchPieces} */ (named.get(lot));
        const says = say("page-pieces-from", { count: take, name: batchName(batch) });
        return [says, GOES.has(way.value) && releaseWords(batch)].filter(Boolean).join(": ");
      },
    );
    // What does not suffice without them says which are kept back.
    const barred = !of.value && picked().short > 0 ? batches.filter((batch) => offered(batch).barred) : [];
    const kept = barred.map((batch) => `${batchName(batch)}: ${releaseWords(batch)}`);
    setText(proposed, way.value === "returned" ? "" : [...lines, ...kept].join(", "));
    setText(due, open && GOES.has(way.value) ? say("page-pieces-duties", { open }) : "");
  }

  turn();
  duties.then((count) => {
    open = count;
    turn();
  });
  const rows = [field(say("page-pieces-what"), way), many.node, atRow, whyRow];
  return askForm(
    title,
    submit(say("page-common-save")),
    [...rows, field(say("page-pieces-of"), of), proposed, due],
    () => {
      const kind = /** @type {Way} */ (way.value);
      const { picked: taken, short } = picked();
      if (!of.value && kind === "returned" && batches.length > 1) throw refuse(say("page-pieces-which"));
      if (!of.value && kind !== "returned" && short > 0)
        throw refuse(say("page-pieces-short", { count: many.value - short }));
      if (kind === "binned" && !why.value.trim()) throw refuse(say("page-pieces-why-needed"));
      const runs =
        of.value || kind === "returned" ? [{ lot: of.value || batches[0].run, take: many.value }] : taken;
      const entries = runs.map(({ lot: run, take: pieces }) => said(kind, run, pieces));
      return { entries, last: { way: kind, outlet: at.value } };
    },
  );

  /** @param {Way} kind @param {string} run @param {number} pieces @returns {ShelfSaid} */
  function said(kind, run, pieces) {
    if (kind === "binned") return { kind, body: { run, pieces, why: why.value.trim() } };
    if (kind === "sampled") return { kind, body: { run, pieces } };
    return { kind, body: { run, pieces, ...(at.value ? { outlet: at.value } : {}) } };
  }
}

/**
 * @param {{run: string, name: string, outlets: readonly OutletNamed[]}} asked @returns {Promise<ShelfSaid[] | null>}
 */
export function askComplaint({ run, name, outlets }) {
  const sort = h(
    "select",
    {},
    /** @type {const} */ (["complaint", "reaction"]).map((each) =>
      h("option", { value: each }, say("page-pieces-sort", { sort: each })),
    ),
  );
  const text = h("textarea", { rows: 3, maxlength: 2000 });
  const at = outletPick(outlets, "");
  const rows = [
    field(say("page-pieces-sort-of"), sort),
    field(say("page-pieces-what-is-wrong"), text),
    h("p", { class: "soft small" }, say("page-pieces-no-names")),
    field(say("page-pieces-from-whom"), at),
  ];
  return askForm(say("page-pieces-complaint-of", { name }), submit(say("page-common-save")), rows, () => {
    if (!text.value.trim()) throw refuse(say("page-pieces-text-needed"));
    /** @type {ComplainedBody} */
    const body = {
      run,
      sort: sort.value === "reaction" ? "reaction" : "complaint",
      text: text.value.trim(),
      ...(at.value ? { outlet: at.value } : {}),
    };
    return [{ kind: "complained", body }];
  });
}

/**
 * Pieces of a batch that are a part made ahead: a lot of the shelf, counted, or weighed where that is said.
 * @param {{batch: BatchPieces, shelf: Shelf, today: string, newId: () => string}} asked
 * @returns {Promise<ShelfSaid[] | null>}
 */
export function askAsLot({ batch, shelf, today, newId }) {
  const name = h("input", { autocomplete: "off", value: batch.title, maxlength: 200 });
  const weighs = h("input", { autocomplete: "off" });
  const many = makeStepper({
    label: say("page-pieces-how-many"),
    value: Math.max(1, batch.in_stock),
    least: 1,
    most: MOST,
    unit: "",
    onchange: () => {},
  });
  const rows = [
    h("p", { class: "soft small" }, say("page-pieces-as-lot-says")),
    field(say("page-shelf-trade-name"), name),
    many.node,
    field(say("page-pieces-weighs"), weighs),
  ];
  return askForm(
    say("page-pieces-as-lot-of", { name: batchName(batch) }),
    submit(say("page-shelf-put")),
    rows,
    () => {
      const called = name.value.trim();
      if (!called) throw refuse(say("page-shelf-need-name"));
      const known = Object.entries(shelf.ingredients).find(
        ([, { card }]) => card && nameKey(card.name) === nameKey(called),
      );
      const ingredient = known?.[0] ?? idFor(called, new Set(Object.keys(shelf.ingredients)));
      const lot = newId();
      const best = batch.best_before ? { best_before: batch.best_before } : {};
      const body = { lot, ingredient, number: batchName(batch), received_on: today, run: batch.run, ...best };
      /** @type {ShelfSaid[]} */
      const card = known ? [] : [{ kind: "described", body: { ingredient, card: { name: called } } }];
      return [
        ...card,
        { kind: "received", body: { ...body, ...much(weighs.value.trim(), many.value) } },
        { kind: "shelved", body: { run: batch.run, pieces: many.value, lot } },
      ];
    },
  );
}

/** @param {string} weighs @param {number} count */
function much(weighs, count) {
  if (!weighs) return { count };
  const { kind, value } = readAmount(weighs, null);
  if (kind !== "mass") throw refuse(say("page-shelf-need-mass-or-pieces"));
  return { mg: halfEven(value[0], value[1] * 1000n) };
}
