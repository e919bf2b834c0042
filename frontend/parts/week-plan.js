// A plan of the week as it is read: how good it is known to be, batch by batch, and what would help.
//
//   planRows(plan, { begun, now, isFollowed })   // nodes
//   buyRows(buying)                              // nodes; none where nothing lacks

import { h } from "./dom.js";
import { dayWords } from "./stock.js";
import { about, duration, soon, unbroken } from "./words.js";
import { say } from "../words.js";
/** @import { BatchBegun, Buying, BuyingRow, PlacedSitting, WeekBatch, WeekHelp } from "../../bench/shapes/page" */
/** @import { OrderPlanSaid } from "../../types/answers" */

/**
 * @param {OrderPlanSaid} plan
 * @param {{begun: readonly BatchBegun[], now: number, isFollowed: boolean}} how what is offered is only looked at
 * @returns {Node[]}
 */
export function planRows(plan, { begun, now, isFollowed }) {
  const runs = new Map(begun.map((each) => [each.batch, each]));
  const next = isFollowed ? plan.plan.batches.findIndex((_, place) => !runs.has(place)) : -1;
  return [
    h("p", { class: "lead" }, plan.says),
    ...plan.cannot.map((recipe) =>
      h("p", { class: "short" }, say("page-week-cannot", { title: titleOf(plan, recipe) })),
    ),
    h(
      "ul",
      { class: "ruled week-batches" },
      plan.plan.batches.map((batch, place) =>
        batchRow(plan, batch, { run: runs.get(place), now, isFollowed, isNext: place === next }),
      ),
    ),
    ...insteadOf(plan),
    ...helpsOf(plan),
  ];
}

/** @param {OrderPlanSaid} plan @param {string} recipe */
const titleOf = (plan, recipe) => plan.titles[recipe] ?? say("page-week-gone-recipe");

/**
 * @param {OrderPlanSaid} plan @param {WeekBatch} batch
 * @param {{run: BatchBegun | undefined, now: number, isFollowed: boolean, isNext: boolean}} how
 */
function batchRow(plan, batch, { run, now, isFollowed, isNext }) {
  const place = plan.plan.batches.indexOf(batch);
  const line = lineOf(plan, batch);
  return h(
    "li",
    { class: "week-batch" },
    h("b", { class: "row-title" }, line),
    h("p", {}, unbroken(run ? runWords(run) : batchWords(batch, now).join("; "))),
    ...intoRows(plan, place),
    h(
      "details",
      {},
      h("summary", { class: "soft" }, say("page-week-parts")),
      h(
        "ul",
        { class: "plain small" },
        batch.sittings.map((sitting, place) =>
          h("li", {}, unbroken(sittingWords(plan, sitting, place === batch.sittings.length - 1))),
        ),
      ),
    ),
    isFollowed && !run?.finished_at
      ? h(
          "a",
          {
            class: `button ${isNext ? "copper" : "outlined"}`,
            href: run ? `#/bench/${run.run}` : `#/size/${batch.make}/${batch.pieces}`,
            "aria-label": run ? null : say("page-week-begin-this", { line }),
          },
          say(run ? "page-week-go-on" : "page-week-begin"),
        )
      : null,
  );
}

/** @param {OrderPlanSaid} plan @param {WeekBatch} batch */
const lineOf = (plan, { pieces: count, make }) =>
  say("page-week-line", { count, title: titleOf(plan, make) });

/** Which batches a part that is made ahead goes into. @param {OrderPlanSaid} plan @param {number} place */
function intoRows(plan, place) {
  const into = plan.plan.batches.filter(({ parts = [] }) => parts.some((part) => part.batch === place));
  if (!into.length) return [];
  const lines = into.map((each) => lineOf(plan, each)).join(", ");
  return [h("p", {}, unbroken(say("page-week-part-of", { lines })))];
}

/** @param {WeekBatch} batch @param {number} now */
function batchWords({ pieces, good, sittings, begin_by: by, ready_at: ready }, now) {
  const [{ starts_at: start }] = sittings;
  return [
    say("page-week-begin-at", { at: soon(start) }),
    by !== null && by < now ? say("page-week-too-late") : "",
    by !== null && by >= now && by > start ? say("page-week-begin-by", { at: soon(by) }) : "",
    say("page-week-ready", { at: soon(ready) }),
    good < pieces ? say("page-week-likely", { count: good }) : "",
  ].filter(Boolean);
}

/** @param {BatchBegun} run */
function runWords({ finished_at: finished, good, begun_at: begun }) {
  if (finished === null) return say("page-week-begin-at", { at: soon(begun) });
  return good === null ? say("page-week-uncounted") : say("page-week-done", { count: good });
}

/** @param {OrderPlanSaid} plan @param {PlacedSitting} sitting @param {boolean} isLast */
function sittingWords({ makers }, { name, starts_at: start, ends_at: end, maker, keeps_ms: keeps }, isLast) {
  const says = say("page-week-sitting", { at: soon(start), length: duration(end - start), name });
  const by = makers.length > 1 ? say("page-week-by", { says, maker: makers[maker] }) : says;
  return keeps === null && !isLast ? say("page-week-ahead", { says: by }) : by;
}

/** Who could be served in full instead. @param {OrderPlanSaid} plan @returns {Node[]} */
function insteadOf(plan) {
  const wants = new Map(plan.wants.map((want) => [want.id, want]));
  const ways = plan.plan.served.filter((met) => met.length);
  if (!ways.length) return [];
  const words = ways.map((met) =>
    met
      .flatMap((id) => wants.get(id) ?? [])
      .map(({ make, pieces, by }) =>
        [say("page-week-line", { count: pieces, title: titleOf(plan, make) }), soon(by)].join(", "),
      )
      .join("; "),
  );
  return [h("p", {}, say("page-week-instead")), bullets(words)];
}

/** The best first. @param {OrderPlanSaid} plan @returns {Node[]} */
function helpsOf(plan) {
  if (!plan.plan.short.length) return [];
  if (!plan.plan.helps.length) return [h("p", { class: "soft" }, say("page-week-no-help"))];
  return [
    h("p", {}, say("page-week-helps")),
    bullets(
      plan.plan.helps.map((help) =>
        say("page-week-help", {
          what: help.what,
          short: help.short,
          name: helpName(plan, help),
          at: help.at === undefined ? "" : soon(help.at),
        }),
      ),
    ),
  ];
}

/** @param {OrderPlanSaid} plan @param {WeekHelp} help */
function helpName(plan, { what, want, maker = 0, equipment = "", ingredient = "" }) {
  if (what === "hours") return plan.makers[maker];
  if (what !== "later") return plan.names[equipment || ingredient] ?? "";
  return titleOf(plan, plan.wants.find(({ id }) => id === want)?.make ?? "");
}

/** @param {readonly string[]} words */
const bullets = (words) =>
  h(
    "ul",
    { class: "plain small" },
    words.map((text) => h("li", {}, text)),
  );

/** What lacks, the soonest to order first. @param {Buying} buying @returns {Node[]} */
export function buyRows({ rows, unjoined }) {
  const lacking = rows.filter((row) => row.lacking > 0);
  if (!lacking.length && !unjoined.length) return [];
  return [
    h("h2", { class: "section-name" }, say("page-week-buy")),
    h(
      "ul",
      { class: "ruled" },
      lacking.map((row) => h("li", { class: row.late ? "past" : "" }, unbroken(buyWords(row)))),
    ),
    unjoined.length
      ? h(
          "p",
          { class: "soft small" },
          say("page-week-buy-unknown", { names: unjoined.map(({ name }) => name).join(", ") }),
        )
      : "",
    h("a", { class: "button quiet", href: "#/buying/week" }, say("page-title-buying")),
  ].filter((node) => node instanceof Node);
}

/** @param {BuyingRow} row */
function buyWords({ name, measure, lacking, packs, order_by: by, late }) {
  const much = measure === "mg" ? about(lacking) : say("page-week-buy-pieces", { count: lacking });
  return [
    say("page-week-buy-line", { much, name }),
    packs ? say("page-week-buy-packs", { count: packs.count }) : "",
    by === null ? "" : say(late ? "page-week-buy-late" : "page-week-buy-by", { day: dayWords(by) }),
  ]
    .filter(Boolean)
    .join(", ");
}
