// The makers and when the bench is theirs, as a form that owns its draft.
//
//   const form = new HoursForm((document, button) => …);   // told when they are saved
//   form.node;   form.data = { hours, isMaker, isOnline, now: () => ms }

import { full } from "../bench/lists.js";
import { hoursOf, isClockHere } from "./day-ahead.js";
import { h, sameData, setText, show } from "./dom.js";
import { OwnDraft } from "./own-draft.js";
import { dated } from "./words.js";
import { say } from "../words.js";
/** @import { MakerWritten } from "../../bench/shapes/page" */
/** @import { HoursDoc, HoursDocument } from "../../types/server" */
/** @import { Full } from "../../types/lists" */
/** @import { Props } from "../../types/dom" */

const DAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
const A_MONDAY = [2024, 0, 1];
/** A day of the week by its name. @param {number} place of it, Monday the first */
const dayName = (place) =>
  dated("weekday", new Date(A_MONDAY[0], A_MONDAY[1], A_MONDAY[2] + place).getTime());

/** Between two times of day: a dash, or a word of any language, but none that says which half of the day. */
const BETWEEN = /\s*(?:[-\u2013]|(?<!\p{L})(?![ap]m(?!\p{L}))\p{L}+)\s*/iu;
/** "9", "9.30", "7 pm": a time of day as it is said. */
const CLOCK = /^(\d{1,2})(?:[:.](\d{2}))?\s*(?:([ap])\.?m\.?)?$/i;
const OF_THE_CLOCK = /(\d)\s*(?:h|uhr|o[’']clock)(?!\p{L})\s*/giu;

/** A time of day as the studio keeps it; what cannot be read stays as it is. @param {string} text */
function readClock(text) {
  const [, hour, minutes = "00", half] = CLOCK.exec(text) ?? [];
  if (!hour) return text;
  const noon = half?.toLowerCase() === "p" ? 12 : 0;
  return `${half ? (Number(hour) % 12) + noon : Number(hour)}:${minutes}`;
}

/** @param {string} clock */
const minuteOf = (clock) => clock.split(":").reduce((hours, minutes) => hours * 60 + Number(minutes), 0);

/**
 * "7-10 pm" begins at 19:00 and "9-5 pm" at 9:00: half of the day said once is meant of both where it can be.
 * @param {string[]} pair
 */
function readPair([opens, ...rest]) {
  const closes = rest.map(readClock);
  const half = CLOCK.exec(rest[0] ?? "")?.[3];
  const isBare = half && CLOCK.test(opens) && !CLOCK.exec(opens)?.[3];
  const same = readClock(`${opens} ${half}m`);
  return [isBare && minuteOf(same) < minuteOf(closes[0]) ? same : readClock(opens), ...closes];
}

/**
 * "9:00 to 12:30, 7-10 pm" as pairs; what cannot be read is the server's to name.
 * @param {string} text @returns {string[][]}
 */
function readHours(text) {
  if (["closed", say("page-day-closed")].includes(text.trim().toLowerCase())) return [];
  return text.split(",").map((pair) => {
    const said = pair.replace(OF_THE_CLOCK, "$1 ").replace(/(\d) (\d\d)(?!\d)/g, "$1:$2");
    return readPair(said.split(BETWEEN).map((each) => each.trim()));
  });
}
/** @param {readonly (readonly string[])[]} pairs */
const writeHours = (pairs) =>
  pairs.length
    ? pairs.map(([opens, closes]) => say("page-day-hours-pair", { opens, closes })).join(", ")
    : say("page-day-closed");

const EXAMPLE = [
  ["9:00", "12:30"],
  ["19:00", "22:00"],
];

/** What is saved, by the key of its field. @param {readonly MakerWritten[]} makers */
function savedOf(makers) {
  /** @type {{[field: string]: string}} */
  const saved = {};
  makers.forEach(({ name, hours }, place) => {
    saved[`${place}.name`] = name;
    saved[`${place}.daily`] = writeHours(hours.daily ?? []);
    for (const key of DAYS) saved[`${place}.${key}`] = hours.days?.[key] ? writeHours(hours.days[key]) : "";
  });
  return saved;
}

/**
 * @typedef {(document: HoursDocument, button: HTMLButtonElement) => void} Write
 * @typedef {{hours: HoursDoc | null, isMaker: boolean, isOnline: boolean, now: () => number}} HoursData
 * @typedef {{zone: HTMLElement, away: HTMLElement, saves: HTMLButtonElement[]}} FormParts
 */

export class HoursForm {
  node = h("div", {});
  #write;
  /** @type {readonly MakerWritten[]} */
  #makers = []; // as saved, when the form was last told
  /** @type {unknown} */
  #seen = null;
  /** @type {Full<string, HTMLInputElement>} */
  #fields = full();
  #draft = new OwnDraft();
  /** @type {FormParts | null} */
  #parts = null;

  /** @param {Write} write */
  constructor(write) {
    this.#write = write;
  }

  /** @param {HoursData} data */
  set data({ hours, isMaker, isOnline, now }) {
    const { makers } = hoursOf(hours);
    if (sameData(this.#seen, [makers, isMaker, isOnline])) return;
    this.#seen = [makers, isMaker, isOnline];
    if (!isMaker) this.#tell(makers, say("page-day-hours-makers"));
    else if (!this.#parts && !isOnline) this.#tell(makers, say("page-day-hours-offline"));
    else this.#form(makers, isOnline, now());
  }

  /** @param {readonly MakerWritten[]} makers @param {string} says */
  #tell(makers, says) {
    this.#parts = null;
    this.node.replaceChildren(
      h(
        "ul",
        { class: "plain" },
        makers.map((maker) => h("li", {}, `${maker.name}: ${writeHours(maker.hours.daily ?? [])}`)),
      ),
      h("p", { class: "soft small" }, says),
    );
  }

  /**
   * Built once for so many makers: what is being written stays while the server comes and goes.
   * @param {readonly MakerWritten[]} makers @param {boolean} isOnline @param {number} at
   */
  #form(makers, isOnline, at) {
    const there = this.#parts && this.#makers.length === makers.length ? this.#parts : null;
    this.#makers = makers;
    if (there) this.#draft.news(savedOf(makers));
    const parts = there ?? this.#build();
    const { zone } = makers[0].hours;
    const isHere = isClockHere(zone, at);
    setText(parts.zone, isHere ? "" : say("page-day-hours-zone", { zone }));
    show(parts.zone, !isHere);
    show(parts.away, !isOnline);
    for (const button of parts.saves) button.disabled = !isOnline;
  }

  #build() {
    const mine = new Map(
      [...this.#fields]
        .filter(([key]) => this.#draft.isMine(key))
        .map(([key, control]) => /** @type {const} */ ([key, control.value])),
    );
    const saved = savedOf(this.#makers);
    this.#draft = new OwnDraft();
    this.#fields = full();
    /** @param {string} key @param {string} label @param {Props<HTMLInputElement>} more */
    const field = (key, label, more) => {
      const control = h("input", more);
      const beside = this.#draft.own(key, control, saved[key]);
      control.value = mine.get(key) ?? control.value;
      this.#fields.set(key, control);
      return h("label", { class: "field" }, h("span", {}, label), control, beside);
    };
    const rows = this.#makers.flatMap((_, place) => [
      field(`${place}.name`, say("page-day-whose-hands"), { required: true, maxlength: 60 }),
      field(`${place}.daily`, say("page-day-each-day"), { placeholder: writeHours(EXAMPLE) }),
      h(
        "details",
        {},
        h("summary", {}, say("page-day-other-days")),
        h(
          "div",
          { class: "stack" },
          DAYS.map((key, day) =>
            field(`${place}.${key}`, dayName(day), { placeholder: say("page-day-other-day") }),
          ),
        ),
      ),
    ]);
    const save = h("button", { class: "outlined" }, say("page-day-hours-save"));
    /** @type {HTMLButtonElement} */
    const other =
      this.#makers.length > 1
        ? h(
            "button",
            {
              type: "button",
              class: "quiet",
              onclick: () => this.#write({ makers: this.#read().slice(0, 1) }, other),
            },
            say("page-day-one-pair"),
          )
        : h(
            "button",
            {
              type: "button",
              class: "quiet",
              onclick: () =>
                this.#write(
                  { makers: [...this.#read(), { ...this.#read()[0], name: say("page-day-second-maker") }] },
                  other,
                ),
            },
            say("page-day-second-pair"),
          );
    const parts = {
      zone: h("p", { class: "soft small" }),
      away: h("p", { class: "soft small", role: "status" }, say("page-day-hours-away")),
      saves: [save, other],
    };
    /** @param {SubmitEvent} event */
    const submit = (event) => {
      event.preventDefault();
      this.#write({ makers: this.#read() }, save);
    };
    this.node.replaceChildren(
      h("form", { class: "stack", onsubmit: submit }, parts.zone, rows, parts.away, save, other),
    );
    this.#parts = parts;
    return parts;
  }

  /**
   * The makers as they are written, with what this form does not know left as it is saved.
   * @returns {MakerWritten[]}
   */
  #read() {
    /** @param {string} key */
    const valueOf = (key) => this.#fields.get(key).value.trim();
    /** What was read stands in the field, as it is kept. @param {string} key */
    const hoursIn = (key) => {
      const pairs = readHours(valueOf(key));
      if (pairs.flat().every((each) => /^\d+:\d\d$/.test(each)))
        this.#fields.get(key).value = writeHours(pairs);
      return pairs;
    };
    return this.#makers.map(({ hours }, place) => ({
      name: valueOf(`${place}.name`),
      hours: {
        ...hours,
        daily: hoursIn(`${place}.daily`),
        days: Object.fromEntries(
          DAYS.filter((key) => valueOf(`${place}.${key}`)).map((key) => [key, hoursIn(`${place}.${key}`)]),
        ),
      },
    }));
  }
}
