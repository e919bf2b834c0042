// The record's parts beside its lines and times: lots, waits, balance, cost, yield and the kit. Pure.

import { FIZZ_STOP_RH } from "../bench/air.js";
import { those } from "../bench/lists.js";
import { papersAbout } from "../bench/shelf.js";
import { readsIn } from "../bench/weighing.js";
import { reading, temperature } from "../bench/whole.js";
import { h } from "./dom.js";
import { waitBar, yieldBars } from "./record-bars.js";
import { amountOf, bestBefore, paperLinks } from "./stock.js";
import { about, clock, day, duration, exactly } from "./words.js";
import { point, say } from "../words.js";
/** @import { LabelledBody, WholeCost, Record as BatchRecord, Remark, Sheet, Shelf } from "../../bench/shapes/page" */
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
export const named = (name) => (name === "wrap" ? say("page-record-wrap") : name);

/**
 * Each lot that went in: how much, how much was booked, and whether it was past its date by then.
 * @param {Pick<BatchRecord, "lots" | "started_at">} told @param {Pick<Shelf, "lots" | "ingredients">} shelf
 */
export function lotsPart(told, shelf) {
  if (!told.lots.length) return null;
  const on = told.started_at === null ? null : new Date(told.started_at).toISOString().slice(0, 10);
  return part(
    say("page-record-lots"),
    table(
      say("page-record-lots-used"),
      [say("page-record-used"), say("page-record-booked")],
      told.lots.map(({ lot: id, names, mg, count, booked_mg: booked, over_mg: over }) => {
        const lot = shelf.lots[id];
        const says = [
          say("page-record-lot", { number: lot ? lot.number : id }),
          lot?.supplier,
          lot && on ? bestBefore(lot, on) : "",
          over * 100 > booked ? say("page-record-over-booked", { mass: about(over) }) : "",
        ]
          .filter(Boolean)
          .join(", ");
        return [
          [
            names.map(named).join(", "),
            h("span", { class: "soft small lot-line" }, says),
            h("span", { class: "no-print" }, lot ? paperLinks(papersAbout(shelf, lot)) : null),
          ],
          count ? amountOf({ count }, count) : mg || booked ? exactly(mg) : say("prompting-to-texture"),
          count || !(mg || booked) ? "" : about(booked),
        ];
      }),
    ),
  );
}

/**
 * Whether a wait ended earlier or later than written.
 * @param {{readonly early: boolean, readonly late: boolean}} wait
 */
export const offOf = ({ early, late }) => (early ? "early" : late ? "late" : "none");

/** @param {Pick<BatchRecord, "waits">} told */
export function waitsPart(told) {
  if (!told.waits.length) return null;
  return part(
    say("page-record-waits"),
    h("p", { class: "soft small" }, say("page-record-waits-picture")),
    h(
      "ul",
      {},
      told.waits.map((wait) => {
        const title = `${wait.letter}, ${wait.title}`;
        return h(
          "li",
          { class: "wait-row" },
          h(
            "p",
            {},
            wait.real_ms === null
              ? say("page-record-wait-open", { title })
              : say("page-record-wait", { off: offOf(wait), title, length: duration(wait.real_ms) }),
          ),
          waitBar(wait),
          h(
            "p",
            { class: "soft small" },
            say("page-record-wait-planned", {
              earliest: duration(wait.earliest_ms),
              latest: duration(wait.latest_ms ?? wait.usual_ms),
              usual: duration(wait.usual_ms),
            }),
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
  const shown = (mg) => reading(mg, readsIn(balance));
  /** @type {[name: string, mg: number][]} */
  const rows = [
    [say("page-record-went-in"), balance.in_mg],
    [say("page-record-in-good", { weighed: balance.weighed, count: balance.good }), balance.good_mg],
    [say("page-record-kept"), balance.kept_mg],
    [say("page-record-in-spoiled"), balance.spoiled_mg],
    [say("page-record-in-spares"), balance.spare_mg],
    [say("page-record-in-bowl"), balance.left_mg],
    [
      balance.expected_loss_mg
        ? say("page-record-lost-expected", { mass: about(balance.expected_loss_mg) })
        : say("page-record-lost"),
      balance.unaccounted_mg,
    ],
  ];
  return part(
    say("page-record-balance"),
    table(
      say("page-record-balance"),
      [say("page-record-mass")],
      rows
        .filter(([, mg], place) => mg !== 0 || place < 2 || place === 6)
        .map(([name, mg]) => [name, shown(mg)]),
    ),
    h(
      "p",
      { class: "soft small" },
      say("page-record-closes", { mass: reading(balance.division_mg, readsIn(balance)) }),
    ),
  );
}

/** A decimal as text, as the page's language writes it. @param {string | null} amount */
const decimal = (amount) => (amount ?? "").replace(".", point());

/** What a batch may cost beside material, hands and wrap. */
const MORE_COST = /** @type {const} */ (["sprays", "cleaning", "labelling", "packaging", "overhead"]);

/**
 * @param {WholeCost | null} reckoned @param {SettingsDocument} settings
 * @param {string} says of when it is, or why there is none
 */
export function costPart(reckoned, settings, says) {
  const note = says ? h("p", { class: "soft" }, says) : null;
  if (!reckoned)
    return part(
      say("page-record-cost"),
      note,
      h("a", { class: "button quiet no-print", href: "#/studio" }, say("page-common-settings")),
    );
  const { materials, unpriced, totals, hands_ms: hands, good, ahead } = reckoned;
  /** @type {Row[]} */
  const rows = materials
    .filter(({ mg, count }) => mg || count)
    .map(({ names, number, mg, count, currency, cost, read = cost }) => [
      [
        names.map(named).join(", "),
        h(
          "span",
          { class: "soft small lot-line" },
          say("page-record-cost-lot", { number, much: count ? amountOf({ count }, count) : exactly(mg) }),
        ),
      ],
      `${decimal(read)} ${currency}`,
    ]);
  return part(
    say("page-record-cost"),
    note,
    rows.length ? table(say("page-record-cost-by-lot"), [say("page-record-cost")], rows) : null,
    Object.entries(totals).map(([currency, sums]) =>
      table(
        say("page-record-cost-in", { currency }),
        [currency],
        [
          [say("page-record-cost-material"), decimal(sums.materials)],
          sums.lost === null ? null : [say("page-record-cost-lost"), decimal(sums.lost)],
          sums.spoiled === null ? null : [say("page-record-cost-spoiled"), decimal(sums.spoiled)],
          [say("page-record-cost-hands", { length: duration(hands) }), decimal(sums.hands)],
          ...MORE_COST.map((what) =>
            Number(sums[what])
              ? /** @type {const} */ ([say("page-record-cost-part", { what }), decimal(sums[what])])
              : null,
          ),
          Number(sums.wrap) ? [say("page-record-wrap"), decimal(sums.wrap)] : null,
          [say("page-record-cost-batch"), h("b", {}, decimal(sums.total))],
          sums.kept === null ? null : [say("page-record-cost-kept"), decimal(sums.kept)],
          sums.per_piece === null
            ? null
            : [say("page-record-cost-each", { count: good ?? 0 }), h("b", {}, decimal(sums.per_piece))],
        ],
      ),
    ),
    Object.entries(ahead?.totals ?? {}).map(([currency, { total, per_piece: each }]) =>
      h(
        "p",
        { class: "soft" },
        say("page-record-cost-ahead", {
          total: `${decimal(total)} ${currency}`,
          each: `${decimal(each)} ${currency}`,
        }),
      ),
    ),
    Object.entries(totals).map(([currency, { sale }]) =>
      sale
        ? table(
            say("page-record-price", { currency }),
            [currency],
            [
              [say("page-record-price-each"), h("b", {}, decimal(sale.price))],
              [say("page-record-price-tax"), decimal(sale.tax)],
              [say("page-record-price-fees"), decimal(sale.fees)],
              [say("page-record-price-cost"), decimal(sale.cost)],
              [say("page-record-price-margin"), decimal(sale.margin)],
            ],
          )
        : null,
    ),
    settings.hourly_rate ? null : h("p", { class: "small" }, say("page-record-cost-no-rate")),
    unpriced.length
      ? h(
          "p",
          { class: "small" },
          say("page-record-cost-unpriced", {
            names: [...new Set(unpriced.flatMap(({ names }) => names.map(named)))].join(", "),
          }),
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
    say("page-record-yield"),
    yieldBars(batches),
    h("p", { class: "soft small" }, say("page-record-yield-picture", { count: batches.length })),
  );
}

/**
 * How damp and warm the room was, and what scales showed of their test weights.
 * @param {Pick<BatchRecord, "air" | "proved">} told @param {Sheet} sheet
 */
export function roomRows({ air, proved }, sheet) {
  /** @type {[string, string][]} */
  const rows = air.map(({ at, humidity, mk }) => [
    clock(at),
    airWords(humidity, mk, Boolean(sheet.asks_air)),
  ]);
  for (const { at, scale: key, mg, weight_mg: weight } of proved) {
    const scale = sheet.kit.scales.find(({ id }) => id === key);
    const division = scale ? readsIn(scale) : { mg: 1 };
    const told = { reads: reading(mg, division), weight: reading(weight, division) };
    rows.push([clock(at), say("page-record-proved", { scale: scale?.name ?? key, ...told })]);
  }
  return rows;
}

/** Labels as they were counted, what is left over of them, and what stood on them. @param {LabelledBody} told */
export const labelsSaid = ({ market, printed, on, binned, text = "" }) =>
  [say("page-record-labels-told", { market, printed, on, binned, left: printed - on - binned }), text]
    .filter(Boolean)
    .join("\n");

/** @param {Pick<BatchRecord, "labelled">} told @returns {[string, string][]} */
export const labelRows = ({ labelled }) => labelled.map((told) => [clock(told.at), labelsSaid(told)]);

/** @param {number} humidity @param {number | null} mk @param {boolean} isOfFizz */
function airWords(humidity, mk, isOfFizz) {
  if (isOfFizz && humidity >= FIZZ_STOP_RH) return say("page-record-air-damp", { humidity });
  return mk === null
    ? say("page-record-air-plain", { humidity })
    : say("page-record-air", { humidity, warmth: temperature(mk) });
}

/** @param {Pick<BatchRecord, "kit">} told */
export function kitPart({ kit }) {
  /** @type {[name: string, says: string][]} */
  const rows = kit.scales.map((scale) => [
    scale.name,
    say("page-record-kit-scale", {
      most: about(scale.capacity_mg),
      division: reading(scale.division_mg, readsIn(scale)),
    }),
  ]);
  return part(
    say("page-record-kit"),
    factList([
      ...rows,
      [say("page-record-kit-vessels"), kit.vessels.join(", ")],
      kit.heaters.length ? [say("page-record-kit-heat"), kit.heaters.join(", ")] : null,
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
    if (name !== null) return name;
    return say(device === own ? "page-record-device-this" : "page-record-device-other", {
      end: device.slice(-6),
    });
  };
}

/** @param {Pick<BatchRecord, "people">} told @param {(device: string) => string} who */
export function peoplePart({ people }, who) {
  return part(
    say("page-record-who"),
    h(
      "ul",
      { class: "plain" },
      people.map((each) =>
        h(
          "li",
          {},
          h("b", {}, who(each.device)),
          ": ",
          say("page-record-who-entries", {
            count: each.entries,
            first: day(each.first_at),
            last: day(each.last_at),
          }),
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
    kind === "noted" || kind === "pictured"
      ? (body.text ?? say("page-record-a-picture"))
      : kind === "labelled"
        ? labelsSaid(/** @type {LabelledBody} */ (/** @type {unknown} */ (body)))
        : say("page-record-kind", { kind });
  return part(
    say("page-record-remarks"),
    h(
      "ul",
      { class: "plain" },
      remarks.map((remark) =>
        h(
          "li",
          {},
          h("b", {}, say("page-record-remark-at", { at: day(remark.at) }), by(remark.device)),
          `: ${said(remark)}`,
        ),
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
    const isOther = sender && sender !== named.get(device);
    return [
      h("b", {}, those([say("page-record-kind", { kind }), what]).join(": ")),
      " ",
      say("page-record-late-entry", {
        how: isOther ? (given_back ? "given" : "sent") : "plain",
        at: day(at),
        received: day(received_at),
        sender: sender ?? "",
        device: named.get(device) ?? who(device),
      }),
    ];
  };
  const more = late.length - LATE_SHOWN;
  return part(
    say("page-record-late"),
    h(
      "ul",
      { class: "plain" },
      late.slice(0, LATE_SHOWN).map((each) => h("li", {}, said(each))),
    ),
    more > 0 ? h("p", { class: "small" }, say("page-record-late-more", { count: more })) : null,
  );
}
