// The makers and when the bench is theirs, as a form that owns its draft.
//
//   const form = new HoursForm((document, button) => …);   // told when they are saved
//   form.node;   form.data = { hours, isMaker, isOnline, now: () => ms }

import { full } from "../bench/lists.js";
import { hoursOf, isClockHere } from "./day-ahead.js";
import { h, sameData, setText, show } from "./dom.js";
import { OwnDraft } from "./own-draft.js";
/** @import { MakerWritten } from "../../bench/shapes/page" */
/** @import { HoursDoc, HoursDocument } from "../../types/server" */
/** @import { Full } from "../../types/lists" */
/** @import { Props } from "../../types/dom" */

/** @type {[key: string, name: string][]} */
const DAYS = [
  ["mon", "Monday"],
  ["tue", "Tuesday"],
  ["wed", "Wednesday"],
  ["thu", "Thursday"],
  ["fri", "Friday"],
  ["sat", "Saturday"],
  ["sun", "Sunday"],
];

/**
 * "9:00 to 12:30, 19:00 to 22:00" as pairs; what cannot be read is the server's to name.
 * @param {string} text @returns {string[][]}
 */
const readHours = (text) =>
  text.trim().toLowerCase() === "closed"
    ? []
    : text.split(",").map((pair) => pair.split(/\s*(?:to|[-\u2013])\s*/).map((each) => each.trim()));
/** @param {readonly (readonly string[])[]} pairs */
const writeHours = (pairs) =>
  pairs.length ? pairs.map(([opens, closes]) => `${opens} to ${closes}`).join(", ") : "closed";

/** What is saved, by the key of its field. @param {readonly MakerWritten[]} makers */
function savedOf(makers) {
  /** @type {{[field: string]: string}} */
  const saved = {};
  makers.forEach(({ name, hours }, place) => {
    saved[`${place}.name`] = name;
    saved[`${place}.daily`] = writeHours(hours.daily ?? []);
    for (const [key] of DAYS) saved[`${place}.${key}`] = hours.days?.[key] ? writeHours(hours.days[key]) : "";
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
    if (!isMaker) this.#tell(makers, "They are the maker\u2019s to change.");
    else if (!this.#parts && !isOnline) this.#tell(makers, "They can be changed when the server answers.");
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
    setText(parts.zone, isHere ? "" : `By the clock of ${zone}; this phone\u2019s is another.`);
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
      field(`${place}.name`, "Whose hands", { required: true, maxlength: 60 }),
      field(`${place}.daily`, "Each day", { placeholder: "9:00 to 12:30, 19:00 to 22:00" }),
      h(
        "details",
        {},
        h("summary", {}, "Days that are otherwise"),
        h(
          "div",
          { class: "stack" },
          DAYS.map(([key, name]) =>
            field(`${place}.${key}`, name, { placeholder: "as each day, or closed" }),
          ),
        ),
      ),
    ]);
    const save = h("button", { class: "outlined" }, "Save the hours");
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
            "One pair of hands again",
          )
        : h(
            "button",
            {
              type: "button",
              class: "quiet",
              onclick: () =>
                this.#write(
                  { makers: [...this.#read(), { ...this.#read()[0], name: "Second maker" }] },
                  other,
                ),
            },
            "Add a second pair of hands",
          );
    const parts = {
      zone: h("p", { class: "soft small" }),
      away: h(
        "p",
        { class: "soft small", role: "status" },
        "No connection. Saving works when the server answers.",
      ),
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
    return this.#makers.map(({ hours }, place) => ({
      name: valueOf(`${place}.name`),
      hours: {
        ...hours,
        daily: readHours(valueOf(`${place}.daily`)),
        days: Object.fromEntries(
          DAYS.filter(([key]) => valueOf(`${place}.${key}`)).map(([key]) => [
            key,
            readHours(valueOf(`${place}.${key}`)),
          ]),
        ),
      },
    }));
  }
}
