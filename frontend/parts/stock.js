// What is on the shelf, by all that this phone knows: its journal, less what the runs have used, those
// that are only with the server too.
//
//   const { shelf, uses, left } = stockOf({ entries, runs, elsewhere });   // shelf: as foldShelf gives it
//   left(lot)                        // mg or pieces
//   stockOf({ entries, runs, elsewhere }, run)  // as it stood without that run: what is there to gather from
//   free                             // uses, and what other open batches have set aside: a gram is promised once
//   shelfOf(entries)         // the shelf alone
//   lackingFor(data, sheet)  // what a sheet not yet begun wants and the shelf has not free

import { ingredientsFor } from "../bench/gather.js";
import { full } from "../bench/lists.js";
import { useOf } from "../bench/lots.js";
import { foldShelf, leftOf } from "../bench/shelf.js";
import { say, sayAll, units } from "../words.js";
import { h } from "./dom.js";
import { fileLink } from "./hand-over.js";
import { dayOnly, exactly } from "./words.js";
/** @import { LotUse, MeasuredRecipe, PaperDue, Sheet, Shelf, ShelfLot } from "../../bench/shapes/page" */
/** @import { ShelfPaper, State } from "../../bench/shapes/page" */
/** @import { KeptEntry } from "../../types/keep" */
/** @import { Batch } from "../../types/parts" */
/** @import { Use } from "../bench/shelf.js" */
/** @import { Full } from "../../types/lists" */

// By a run's state: it changes with the journal.
const USED = /** @type {WeakMap<State, {[lot: string]: LotUse}>} */ (new WeakMap());
/** @typedef {{entries: readonly KeptEntry[], runs: readonly Batch[], elsewhere?: {[lot: string]: number}}} Stocked */

/** @type {{entries: readonly KeptEntry[], shelf: Shelf} | null} */
let folded = null;

/** The shelf by its journal, folded once for each. @param {readonly KeptEntry[]} entries */
export function shelfOf(entries) {
  if (folded?.entries !== entries) folded = { entries, shelf: foldShelf(entries) };
  return folded.shelf;
}

/** @param {Batch} given */
function usedBy({ sheet, state, entries }) {
  const used = USED.get(state) ?? (state.gathered.length ? useOf(sheet, state, entries) : {});
  USED.set(state, used);
  return used;
}

/**
 * What an open batch gathered and has yet to weigh, by lot: nobody else may count on it.
 * @param {Batch} run @returns {[lot: string, use: Use][]}
 */
function asideFor(run) {
  const { sheet, state } = run;
  if (!run.open || !state.gathered.length) return [];
  const wanted = new Set(
    sheet.lines.flatMap(({ id, ingredient }) => (state.lines[id].status === "open" ? [ingredient] : [])),
  );
  const used = usedBy(run);
  /** @type {Full<string, number>} */
  const counts = full();
  for (const { lot, count } of state.gathered) counts.set(lot, (counts.get(lot) ?? 0) + (count ?? 0));
  const lots = new Set(
    state.gathered.flatMap(({ lot, ingredient }) => (wanted.has(ingredient) ? [lot] : [])),
  );
  return [...lots].map((lot) => [
    lot,
    {
      mg: Math.max(0, used[lot].booked_mg - used[lot].mg),
      count: Math.max(0, counts.get(lot) - used[lot].count),
      at: Infinity, // also where the lot was counted since: it stands there, and is promised
    },
  ]);
}

/** @param {Stocked} given @param {string | null} [but] a run that is left out */
export function stockOf({ entries, runs, elsewhere = {} }, but = null) {
  const shelf = shelfOf(entries);
  /** @type {{[lot: string]: Use[]}} */
  const uses = {};
  const others = runs.filter(({ id }) => id !== but);
  for (const run of others)
    for (const [lot, use] of Object.entries(usedBy(run))) (uses[lot] ??= []).push(use);
  for (const [lot, much] of Object.entries(elsewhere))
    (uses[lot] ??= []).push({ mg: much, count: much, at: Infinity });
  const free = { ...uses };
  for (const run of others) for (const [lot, use] of asideFor(run)) free[lot] = [...(free[lot] ?? []), use];
  return { shelf, uses, free, left: (/** @type {string} */ lot) => leftOf(shelf.lots[lot], uses[lot] ?? []) };
}

/**
 * What a batch of this sheet would lack of what the shelf keeps: an ingredient without a card is not counted there.
 * @param {Stocked & {today: string}} given @param {Sheet} sheet
 */
export function lackingFor(given, sheet) {
  const { shelf, free } = stockOf(given);
  const needs = ingredientsFor(sheet, [], shelf, free, given.today);
  return needs.filter((need) => need.shelf !== null && !need.by_hand && need.short > 0);
}

/**
 * The runs that a lot went into, with how much of it: [{run, mg, count}], newest first.
 * @param {string} lot @param {readonly Batch[]} runs
 */
export function runsOf(lot, runs) {
  return runs.flatMap((run) => {
    const use = usedBy(run)[lot];
    return use ? [{ run, mg: use.mg, count: use.count }] : [];
  });
}

/** "240 g", or "12 pieces" of what is counted. @param {Pick<ShelfLot, "count">} lot @param {number} much */
export function amountOf({ count }, much) {
  return count === null ? exactly(much) : say("page-shelf-pieces", { count: much });
}

/**
 * How finely a mass is typed that no scale shows, in the units that are asked for.
 * @returns {import("../bench/whole.js").Division}
 */
export const typedIn = () => (units().mass === "oz" ? { mg: 283, uoz: 10_000 } : { mg: 10 });

/** "31 Mar 2027" of "2027-03-31". @param {string} day */
export function dayWords(day) {
  return dayOnly(new Date(`${day}T12:00`).getTime());
}

/**
 * A lot's best-before in words; "" when it has none.
 * @param {{best_before: string | null}} given @param {string} today
 */
export function bestBefore({ best_before: best }, today) {
  if (best === null) return "";
  return say(best < today ? "page-shelf-past" : "page-shelf-best-before", { day: dayWords(best) });
}

/** The files of papers that have one, each to be saved from the server. @param {readonly ShelfPaper[]} papers */
export const paperLinks = (papers) =>
  papers.flatMap(({ paper, reference, picture, media }) => {
    if (!picture || !media) return [];
    const name = reference.endsWith(`.${media}`) ? reference : `${reference}.${media}`;
    const kind = say("page-shelf-paper-kind", { paper });
    return [" ", fileLink(`/api/v1/pictures/${picture}`, name, say("page-shelf-paper-open", { kind }))];
  });

/** Papers that are past their date or soon will be, each once; "" for none. @param {readonly PaperDue[]} papers */
export function papersWords(papers) {
  /** @param {PaperDue} due */
  const kind = ({ paper }) => say("page-shelf-paper-kind", { paper });
  const past = new Set(papers.filter((each) => each.past).map(kind));
  const soon = papers
    .filter((each) => !each.past)
    .map((each) => say("page-shelf-papers-soon", { name: kind(each), day: dayWords(each.expires) }));
  const over = past.size ? [say("page-shelf-papers-past", { names: sayAll([...past]) })] : [];
  return [...over, ...new Set(soon)].join(", ");
}

/**
 * How much of a list of batches is here, and what asks for more.
 * @param {number} here @param {number} all @param {() => void} ask
 */
export const goOn = (here, all, ask) =>
  h(
    "p",
    { class: "no-print" },
    say("page-recall-shown", { here, all }),
    " ",
    h("button", { type: "button", class: "quiet", onclick: ask }, say("page-find-more")),
  );
