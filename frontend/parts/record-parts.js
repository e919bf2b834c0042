// The record's parts beside its lines and times: lots, waits, balance, cost, yield and the kit. Pure.

import { grams } from "../bench/index.js";
import { h } from "./dom.js";
import { waitBar, yieldBars } from "./record-bars.js";
import { amountOf, bestBefore } from "./stock.js";
import { about, day, duration, mass } from "./words.js";
/** @import { Cost, Record as BatchRecord, Remark, Shelf } from "../../bench/shapes/page" */
/** @import { Child } from "../../types/dom" */
/** @import { Late, Place, SettingsDocument, ToldOfRun } from "../../types/server" */
/** @import { YieldBar } from "./record-bars.js" */

/**
 * @typedef {Child | readonly Child[]} Cell
 * @typedef {readonly [name: Cell, ...cells: Cell[]]} Row
 */

/** @param {string} title @param {Cell[]} children */
export const part = (title, ...children) =>
  h(
    "section",
    { class: "record-part", "aria-label": title },
    h("h2", { class: "section-name" }, title),
    ...children,
  );

/** @param {string} caption @param {readonly string[]} heads @param {readonly (Row | null)[]} rows */
function table(caption, heads, rows) {
  return h(
    "table",
    { class: "amounts" },
    h("caption", { class: "unseen" }, caption),
    h(
      "thead",
      {},
      h(
        "tr",
        {},
        h("td", {}),
        heads.map((name) => h("th", { scope: "col" }, name)),
      ),
    ),
    h(
      "tbody",
      {},
      rows
        .flatMap((row) => (row ? [row] : []))
        .map(([name, ...cells]) =>
          h(
            "tr",
            {},
            h("th", { scope: "row" }, name),
            cells.map((cell) => h("td", {}, cell)),
          ),
        ),
    ),
  );
}

/** @param {readonly (readonly [name: Cell, value: Cell] | null | false | "" | undefined)[]} rows */
export const factList = (rows) =>
  h(
    "dl",
    { class: "facts" },
    rows.flatMap((row) => (row ? [h("div", {}, h("dt", {}, row[0]), h("dd", {}, row[1]))] : [])),
  );

/** What pieces are wrapped in is on no sheet, so it has no name there. @param {string} name */
const named = (name) => (name === "wrap" ? "Wrap" : name);

/**
 * Each lot that went in: how much, how much was booked, and whether it was past its date by then.
 * @param {Pick<BatchRecord, "lots" | "started_at">} told @param {Pick<Shelf, "lots">} shelf
 */
export function lotsPart(told, shelf) {
  if (!told.lots.length) return null;
  const on = told.started_at === null ? null : new Date(told.started_at).toISOString().slice(0, 10);
  return part(
    "Lots",
    table(
      "Lots used",
      ["used", "booked"],
      told.lots.map(({ lot: id, names, mg, count, booked_mg: booked, over_mg: over }) => {
        const lot = shelf.lots[id];
        const says = [
          lot ? `lot ${lot.number}` : `lot ${id}`,
          lot?.supplier,
          lot && on ? bestBefore(lot, on) : "",
          over ? `${about(over)} more than was booked` : "",
        ]
          .filter(Boolean)
          .join(", ");
        return [
          [names.map(named).join(", "), h("span", { class: "soft small lot-line" }, says)],
          count ? amountOf({ count }, count) : mass(mg),
          count ? "" : about(booked),
        ];
      }),
    ),
  );
}

/** @param {Pick<BatchRecord, "waits">} told */
export function waitsPart(told) {
  if (!told.waits.length) return null;
  return part(
    "Waits, planned and real",
    h(
      "p",
      { class: "soft small" },
      "Above, the time that was planned and its usual end; below, what really passed.",
    ),
    h(
      "ul",
      {},
      told.waits.map((wait) => {
        const real = wait.real_ms === null ? "not ended" : duration(wait.real_ms);
        const off = wait.early ? ", earlier than written" : wait.late ? ", later than written" : "";
        return h(
          "li",
          { class: "wait-row" },
          h("p", {}, `${wait.letter}, ${wait.title}: `, h("b", {}, real), off),
          waitBar(wait),
          h(
            "p",
            { class: "soft small" },
            `${duration(wait.earliest_ms)} to ${duration(wait.latest_ms ?? wait.usual_ms)} planned, ` +
              `usually ${duration(wait.usual_ms)}`,
          ),
        );
      }),
    ),
  );
}

/** Where the mass that went in has gone, to the scale's division. @param {Pick<BatchRecord, "balance">} told */
export function balancePart({ balance }) {
  if (!balance) return null;
  /** @param {number} mg */
  const shown = (mg) => `${grams(mg, balance.division_mg)}`;
  /** @type {[name: string, mg: number][]} */
  const rows = [
    ["Went in", balance.in_mg],
    [
      `In ${balance.good} good ` +
        `pieces${balance.weighed ? `, ${balance.weighed} of them weighed` : ", by their planned weight"}`,
      balance.good_mg,
    ],
    ["Spoiled", balance.spoiled_mg],
    ["In spare parts", balance.spare_mg],
    ["Left in the bowl", balance.left_mg],
    [
      "Dried off, stuck or " +
        `unaccounted${balance.expected_loss_mg ? `; ${about(balance.expected_loss_mg)} was reckoned with` : ""}`,
      balance.unaccounted_mg,
    ],
  ];
  return part(
    "Mass balance",
    table(
      "Mass balance",
      ["mass"],
      rows
        .filter(([, mg], place) => mg !== 0 || place < 2 || place === 5)
        .map(([name, mg]) => [name, shown(mg)]),
    ),
    h("p", { class: "soft small" }, `Closes to the scale\u2019s ${mass(balance.division_mg)}.`),
  );
}

/** @param {string} amount @param {string} currency */
const money = (amount, currency) => `${amount} ${currency}`;

/** @param {Cost | null} reckoned @param {SettingsDocument} settings */
export function costPart(reckoned, settings) {
  if (!reckoned)
    return part(
      "Cost",
      h(
        "p",
        { class: "soft" },
        "No lot has a price, and no currency is set. Settings has the currency, the hourly rate and the wrap.",
      ),
      h("a", { class: "button quiet no-print", href: "#/studio" }, "Settings"),
    );
  const { materials, unpriced, totals, hands_ms: hands, good } = reckoned;
  /** @type {Row[]} */
  const rows = materials
    .filter(({ mg, count }) => mg || count)
    .map(({ names, number, mg, count, currency, cost }) => [
      [
        names.map(named).join(", "),
        h(
          "span",
          { class: "soft small lot-line" },
          `lot ${number}, ${count ? amountOf({ count }, count) : mass(mg)}`,
        ),
      ],
      money(cost, currency),
    ]);
  return part(
    "Cost",
    rows.length ? table("Material by lot", ["cost"], rows) : null,
    Object.entries(totals).map(([currency, sums]) =>
      table(
        `In ${currency}`,
        [currency],
        [
          ["Material", sums.materials],
          sums.lost === null ? null : ["of it lost on the way", sums.lost],
          sums.spoiled === null ? null : ["of it spoiled", sums.spoiled],
          [`Hands, ${duration(hands)}`, sums.hands],
          ["Wrap", sums.wrap],
          ["The batch", h("b", {}, sums.total)],
          sums.per_piece === null ? null : [`Each of ${good} good`, h("b", {}, sums.per_piece)],
        ],
      ),
    ),
    settings.hourly_rate
      ? null
      : h("p", { class: "small" }, "Hands cost nothing here: Settings has no hourly rate."),
    unpriced.length
      ? h(
          "p",
          { class: "small" },
          `Without a price, and not in these sums: ${[...new Set(unpriced.flatMap(({ names }) => names))].join(", ")}.`,
        )
      : null,
  );
}

/**
 * This batch's good pieces beside the others of its recipe: [{name, planned, good, spoiled, here}].
 * @param {readonly YieldBar[]} batches
 */
export function yieldPart(batches) {
  if (batches.length < 2) return null;
  return part(
    "Yield over batches",
    yieldBars(batches),
    h(
      "p",
      { class: "soft small" },
      `Good pieces of ${batches.length} batches of this recipe, the oldest first; the line is what ` +
        "was planned, the darkest is this one.",
    ),
  );
}

/** @param {Pick<BatchRecord, "kit">} told */
export function kitPart({ kit }) {
  /** @type {[name: string, says: string][]} */
  const rows = kit.scales.map(({ name, capacity_mg: most, division_mg: division }) => [
    name,
    `up to ${about(most)}, in steps of ${mass(division)}`,
  ]);
  return part(
    "Kit",
    factList([
      ...rows,
      ["Vessels", kit.vessels.join(", ")],
      kit.heaters.length ? ["Heat", kit.heaters.join(", ")] : null,
    ]),
  );
}

/**
 * What a device that made entries is called: the name it was paired by, as this phone last heard; for one
 * that was never paired, the end of its id, said as such.
 * @param {{device: string, place: Place | null | undefined}} studio @returns {(device: string) => string}
 */
export function whoOf({ device: own, place }) {
  const { you, benches = {} } = place ?? {};
  return (device) => {
    const name = device === own && you ? you.name : Object.hasOwn(benches, device) ? benches[device] : null;
    return name ?? `${device === own ? "this device" : "a device"} with no name, \u2026${device.slice(-6)}`;
  };
}

/** @param {Pick<BatchRecord, "people">} told @param {(device: string) => string} who */
export function peoplePart({ people }, who) {
  /** @param {number} many */
  const entries = (many) => `${many} ${many === 1 ? "entry" : "entries"}`;
  return part(
    "Who",
    h(
      "ul",
      { class: "plain" },
      people.map((each) =>
        h(
          "li",
          {},
          h("b", {}, who(each.device)),
          `: ${entries(each.entries)}, ${day(each.first_at)} to ${day(each.last_at)}`,
        ),
      ),
    ),
  );
}

/**
 * What was said after the record was signed: each with its own time, marked as what it is.
 * @param {Pick<BatchRecord, "remarks">} told @param {(device: string) => string} by
 */
export function remarksPart({ remarks }, by) {
  if (!remarks.length) return null;
  /** @param {Remark} remark */
  const said = ({ kind, body }) =>
    kind === "noted" || kind === "pictured" ? (body.text ?? "a photograph") : kind.replaceAll("_", " ");
  return part(
    "Remarks after signing",
    h(
      "ul",
      { class: "plain" },
      remarks.map((remark) =>
        h("li", {}, h("b", {}, `Remark, ${day(remark.at)}${by(remark.device)}`), `: ${said(remark)}`),
      ),
    ),
  );
}

const LATE_SHOWN = 20;

/**
 * What the server received long after it happened, and what was given back to it: its own knowledge, as it told it.
 * @param {ToldOfRun} told @param {(device: string) => string} who
 */
export function latePart({ late, people }, who) {
  if (!late.length) return null;
  const named = new Map(people.filter(({ name }) => name).map(({ device, name }) => [device, name]));
  /** @param {Late} entry */
  const said = ({ at, received_at, device, sender, given_back, kind, about: what }) => {
    const by =
      sender && sender !== named.get(device) ? `, ${given_back ? "given back" : "sent"} by ${sender}` : "";
    return [
      h("b", {}, `${kind.replaceAll("_", " ")}${what ? `: ${what}` : ""}`),
      ` Entered ${day(at)}, received ${day(received_at)}${by}, ${named.get(device) ?? who(device)}.`,
    ];
  };
  const more = late.length - LATE_SHOWN;
  return part(
    "Received late",
    h(
      "ul",
      { class: "plain" },
      late.slice(0, LATE_SHOWN).map((each) => h("li", {}, said(each))),
    ),
    more > 0 ? h("p", { class: "small" }, `And ${more} more; the CSV has all.`) : null,
  );
}
