// Settings, who may come in, and the plain truth about the line to the server and what this browser cannot do.
//
//   screen.data = { link, place, isMaker, preferences, settings, runs, shelf, now, ringing }
//   "preferred" { key, value }, "sync-wanted", "update-wanted", "send-again" / "set-aside" { run, entry }
//   "settings-written" { document }; answered by screen.kept() or screen.trouble("…")
//   "devices-wanted", and what parts/device-list.js tells; answered by
//   screen.told({ devices, made } or { says })

import {
  define,
  first,
  given,
  h,
  keyed,
  part as within,
  setAttr,
  setText,
  show,
  tell,
} from "../parts/dom.js";
import { fileLink, handOver } from "../parts/hand-over.js";
import { pageHead } from "../parts/page-head.js";
import { isApple, isInstalled } from "../platform.js";
import { willRing } from "../parts/ring-state.js";
import { settingsForm } from "../parts/studio-settings.js";
import { clock, COPY_OLD_MS, day, dayOnly, duration } from "../parts/words.js";
import { languages, say, shown } from "../words.js";
/** @import { CopiesNow, DeviceItem, PairingMade } from "../../types/answers" */
/** @import { KeptEntry, Link, Preferences, RefusedRow, Shut } from "../../types/keep" */
/** @import { Place, SettingsDocument } from "../../types/server" */
/** @import { Run } from "../keep/run.js" */
/** @import { RingPart } from "../parts/ring-state.js" */
/** @import { DeviceList } from "../parts/device-list.js" */

const DAY_MS = 24 * 3_600_000;
/** The certificate renews itself long before this, and a copy is made every night. */
const CERTIFICATE_SOON_MS = 5 * DAY_MS;

/** @returns {[key: ChoiceKey, label: string, options: [value: string, says: string][]]} */
const languageChoice = () => [
  "language",
  say("language-choice"),
  [["", say("language-as-phone")], ...Object.entries(languages())],
];
/** @type {[key: ChoiceKey, label: string, options: [value: string, says: string][]][]} */
const CHOICES = [
  [
    "theme",
    "Colours",
    [
      ["auto", "As the phone"],
      ["day", "Day"],
      ["night", "Night"],
    ],
  ],
  [
    "weigh",
    "Weighing",
    [
      ["running", "The display climbs"],
      ["tare", "Tare before each"],
    ],
  ],
  [
    "dry",
    "Dry enough for you",
    [
      ["", "Constant weight: 0.50 mg for each gram in an hour"],
      ["2000", "Your own: 2 mg for each gram in an hour"],
      ["5000", "Your own: 5 mg for each gram in an hour"],
    ],
  ],
];
/** @type {[key: SwitchKey, label: string][]} */
const SWITCHES = [
  ["sound", "Ring when something is ready or late"],
  ["speech", "Say each step aloud"],
];

/** @type {{readonly [S in Shut]: string}} */
const SHUT = {
  unpaired:
    "This phone is not paired with the studio. Runs that are here go on, and what you do is kept on " +
    "this phone; it is sent once the phone is paired. A maker's phone or the studio's computer gives " +
    "the code.",
  "shut-out":
    "This phone was shut out of the studio. Runs that are here go on, and what you do is kept on " +
    "this phone. A maker can give it a new code; then you look at what was not sent, and send it " +
    "again or set it aside.",
};
const NEEDS = "Working with no network, keeping the screen on and installing need that.";
const NOT_SECURE = `${NEEDS} Open the studio by its https address, as the computer that runs it shows it.`;
const NOT_TRUSTED =
  `${NEEDS} Open the studio's plain page first, the one that its computer shows for new phones; follow ` +
  "its few steps to trust the certificate, then open the studio again.";

/** @param {Place | null | undefined} place */
function whoIsHere(place) {
  if (!place) return "Not known until the server was heard";
  if (place.you)
    return (
      `${place.you.name}, ` +
      `${place.you.role === "maker" ? "maker" : "helper: recipes and kit are the maker's to change"}`
    );
  return "The maker, at the studio's own computer. Phones are let in when it is started with --lan.";
}

/** @type {{readonly [how: string]: string | undefined}} */
const READ_BACK = { whole: "read back whole", partly: "read back in part", unread: "not read back yet" };

/** "Last copy 03:10, read back whole, 28 400 entries". @param {CopiesNow} copies @param {number} now */
function copyWords({ last_at, read_back, entries }, now) {
  if (!last_at) return "No copy yet";
  const when = dayOnly(last_at) === dayOnly(now) ? clock(last_at) : day(last_at);
  return [
    `Last copy ${when}`,
    READ_BACK[read_back ?? ""],
    entries === null ? "" : `${shown(entries)} entries`,
  ]
    .filter(Boolean)
    .join(", ");
}

/** @param {CopiesNow} copies @param {number} now */
function copyWarning({ last_at, failed_why, stopped }, now) {
  const isOld = last_at && last_at < now - COPY_OLD_MS;
  const why = failed_why ? `The last try failed: ${failed_why} ` : "";
  if (stopped || isOld) return `${why}Copies have stopped. Look at the computer that runs the studio.`;
  return why && `${why}It is tried again by itself.`;
}

/** @param {string} label */
const fact = (label) =>
  h("div", {}, h("dt", {}, label), h("dd", {}, h("span", {}), h("span", { class: "small" })));

/** An iPhone, in the order in which it is to be done. Of the steps from memory, no phone was touched. */
const ON_IPHONE = [
  "First install: in Safari, Share, then Add to Home Screen.",
  "Open it from the home screen, and pair it there. It keeps its own batches, apart from Safari\u2019s.",
  "While you work: Settings, Display & Brightness, Auto-Lock, Never.",
  "Silent switch off. From iOS 16.4 it rings even when silent.",
];
const RINGS = [
  "It rings while this page is open and the screen is on.",
  isApple
    ? "With the screen off, or another app in front, nothing rings."
    : "With the screen off, or another app in front, a ring may be late or missing.",
  "For a long wait, put the sessions into the phone\u2019s calendar: open The day.",
];

/** @param {{willRing: Node, ringing: Node}} parts @param {() => void} onclick */
function ringPart(parts, onclick) {
  return h(
    "section",
    { "aria-label": "Will it ring?" },
    h("h2", { class: "section-name" }, "Will it ring?"),
    parts.willRing,
    parts.ringing,
    h(
      "ul",
      { class: "plain" },
      RINGS.map((text) => h("li", {}, text)),
    ),
    isApple
      ? [
          h("h3", {}, "On an iPhone or iPad"),
          h(
            "ol",
            { class: "plain" },
            (isInstalled ? ON_IPHONE.slice(2) : ON_IPHONE).map((text) => h("li", {}, text)),
          ),
        ]
      : null,
    h("button", { type: "button", class: "outlined", onclick }, "Test ring"),
  );
}

/**
 * @typedef {{link: Link, place: Place | null | undefined, isMaker: boolean, preferences: Preferences,
 *   settings: SettingsDocument, runs: readonly Run[], shelf: readonly KeptEntry[], now: () => number,
 *   ringing: RingPart[]}} StudioData
 * @typedef {{devices?: DeviceItem[], made?: PairingMade | null, says?: string}} Devices
 * @typedef {"theme" | "language" | "weigh" | "dry"} ChoiceKey
 * @typedef {"sound" | "speech"} SwitchKey
 */

export class StudioScreen extends HTMLElement {
  #parts = this.#makeParts();
  /** @type {StudioData} */
  #data = given();
  #asked = false;
  /** @type {ReturnType<typeof settingsForm> | null} */
  #settings = null;
  /** @type {DeviceList | null} */
  #devices = null;

  /** @param {StudioData} data */
  set data(data) {
    this.#data = data;
    if (!this.firstChild) this.#build(data.preferences);
    const { link, place } = data;
    const parts = this.#parts;
    setText(parts.you, whoIsHere(place));
    setText(
      parts.address,
      link.secure
        ? link.trusted
          ? "Secure, and trusted by this phone"
          : "Not trusted by this phone"
        : "Not secure: plain http",
    );
    setText(parts.trust, link.secure ? NOT_TRUSTED : NOT_SECURE);
    show(parts.trust, !link.secure || !link.trusted);
    this.#fact(
      parts.certificate,
      place?.certificate_ends_at,
      (at) => `Good until ${day(at)}`,
      (at) =>
        at < data.now() + CERTIFICATE_SOON_MS &&
        "It should have renewed itself by now: look at the computer that runs the studio.",
    );
    this.#fact(
      parts.copy,
      place?.copies ?? null,
      (copies) => copyWords(copies, data.now()),
      (copies) => copyWarning(copies, data.now()),
    );
    this.#fact(
      parts.clock,
      place?.clock_wrong,
      () => "Wrong",
      (says) => says,
    );
    setText(parts.shutSays, link.shut ? SHUT[link.shut] : "");
    show(parts.shut, Boolean(link.shut));
    setText(
      parts.leap,
      `The server's clock was set ${link.leap > 0 ? "forward" : "back"} by ` +
        `${duration(Math.abs(link.leap))}. What counts goes on by the time it began with.`,
    );
    show(parts.leap, Boolean(link.leap));
    show(parts.trail, data.isMaker);
    setText(parts.willRing, willRing(data.ringing));
    keyed(
      parts.ringing,
      data.ringing,
      ({ name }) => name,
      ({ name }) => h("li", {}, h("b", {}, `${name}: `), h("span", {})),
      (row, { well, says }) => {
        setAttr(row, "data-well", String(well));
        setText(first(row, 1), says);
      },
    );
    this.#writeDevices();
    this.#writeSettings();
    setText(
      parts.state,
      link.shut
        ? "The server answers, and does not let this phone in."
        : link.state === "asking"
          ? "Asking the server\u2026"
          : link.state === "online"
            ? "The server answers."
            : "Offline: the server does not answer. Everything you do is kept on this phone and sent later.",
    );
    setText(
      parts.heard,
      link.heard_at ? `Last heard from it ${day(link.heard_at)}.` : "Not heard from it yet.",
    );
    setText(parts.unsent, link.unsent ? `${link.unsent} not sent yet.` : "Everything is sent.");
    setText(parts.trouble, link.trouble ?? "");
    show(parts.trouble, Boolean(link.trouble) && link.state === "online");
    keyed(
      parts.refused,
      link.refused,
      (item) => `${item.run} ${item.entry?.id ?? ""}`,
      (item) => this.#makeRefused(item),
      (node, item) => setText(within(node, "p > span:last-child"), item.detail),
    );
    show(parts.refusedPart, link.refused.length > 0);
    show(parts.all, link.refused.length > 1);
    keyed(
      parts.cannot,
      link.cannot,
      ({ what }) => what,
      ({ what, because }) =>
        h("li", {}, [say(`page-studio-cannot-${what}`), say(`page-studio-because-${because}`)].join(" ")),
    );
    show(parts.cannotPart, link.cannot.length > 0);
    show(parts.update, link.update);
  }

  /** Who is let in, or why that cannot be told. @param {Devices} told */
  told({ devices, made, says = "" }) {
    const { place, now } = this.#data;
    const { list, listSays } = this.#parts;
    setText(listSays, says);
    show(listSays, says !== "");
    if (!devices) return;
    this.#devices ??= h("device-list");
    if (!this.#devices.isConnected) list.append(this.#devices);
    this.#devices.data = { devices, you: place?.you, made: made ?? null, now };
  }

  /** Asked for once, when it is known that this is a maker's phone and the server answers. */
  #writeDevices() {
    const { link, place, isMaker } = this.#data;
    const wanted = Boolean(place?.you) && isMaker;
    show(this.#parts.devices, wanted);
    if (!wanted || this.#asked || link.state !== "online") return;
    this.#asked = true;
    tell(this, "devices-wanted");
  }

  /**
   * @template V @param {HTMLElement} row @param {V | null | undefined} value @param {(value: V) => string} says
   * @param {(value: V) => string | false | null} warns
   */
  #fact(row, value, says, warns) {
    show(row, value !== null && value !== undefined);
    if (value === null || value === undefined) return;
    const [text, warning] = first(row, 1).children;
    setText(text, says(value));
    setText(warning, warns(value) || "");
    show(warning, warning.textContent !== "");
  }

  #makeParts() {
    const parts = {
      state: h("p", { role: "status" }),
      heard: h("p", { class: "soft" }),
      unsent: h("p", {}),
      trouble: h("p", { class: "notice" }),
      you: h("dd", {}),
      address: h("span", {}),
      trust: h("span", { class: "small soft" }),
      certificate: fact("Certificate"),
      copy: fact("Copies"),
      clock: fact("Server\u2019s clock"),
      shutSays: h("p", {}),
      leap: h("p", { class: "notice" }),
      list: h("div", {}),
      listSays: h("p", { class: "notice", hidden: true }),
      all: h(
        "button",
        {
          type: "button",
          class: "quiet",
          onclick: () => this.#data.link.refused.forEach((item) => tell(this, "send-again", item)),
        },
        "Send all of them again",
      ),
      settings: h("div", {}),
      willRing: h("p", { role: "status" }),
      ringing: h("ul", { class: "plain ringing" }),
      settingsTrouble: h("p", { class: "trouble", role: "alert", hidden: true }),
      kept: h("p", { role: "status", class: "soft" }),
      refused: h("ul", { class: "rows" }),
      cannot: h("ul", { class: "plain" }),
      update: h(
        "p",
        { class: "notice" },
        "A newer page is ready. It takes over when you say so, and no run is lost. ",
        h(
          "button",
          { type: "button", class: "outlined", onclick: () => tell(this, "update-wanted") },
          "Use it",
        ),
      ),
    };
    const refusedPart = h(
      "section",
      { "aria-label": "Refused" },
      h("h2", { class: "section-name" }, "Refused by the server"),
      h("p", { class: "soft" }, "These stay on this phone."),
      parts.refused,
      parts.all,
    );
    const shut = h(
      "section",
      { class: "notice shut", "aria-label": "At the door", role: "status" },
      parts.shutSays,
      h("a", { class: "button copper", href: "/pair" }, "Pair this phone"),
    );
    const devices = h(
      "section",
      { "aria-label": "Who may come in" },
      h("h2", { class: "section-name" }, "Who may come in"),
      parts.listSays,
      parts.list,
    );
    const trail = h("p", {}, h("a", { class: "button quiet add-row", href: "#/audit" }, "Who did what"));
    const cannotPart = h(
      "section",
      { "aria-label": say("page-studio-cannot") },
      h("h2", { class: "section-name" }, say("page-studio-cannot")),
      parts.cannot,
    );
    return { ...parts, refusedPart, shut, devices, trail, cannotPart };
  }

  /** @param {Preferences} preferences */
  #build(preferences) {
    /** @param {keyof Preferences} key @param {string | boolean} value */
    const prefer = (key, value) => tell(this, "preferred", { key, value });
    const parts = this.#parts;
    this.append(
      h(
        "div",
        { class: "sheet" },
        pageHead("Settings", "studio"),
        parts.update,
        parts.shut,
        parts.leap,
        h(
          "section",
          { "aria-label": "At the bench" },
          h("h2", { class: "section-name" }, "At the bench"),
          SWITCHES.map(([key, label]) =>
            h(
              "label",
              { class: "choice" },
              h("input", {
                type: "checkbox",
                checked: preferences[key],
                onchange: ({ currentTarget }) => prefer(key, currentTarget.checked),
              }),
              h("span", {}, label),
            ),
          ),
          [languageChoice(), ...CHOICES].map(([key, label, options]) =>
            h(
              "fieldset",
              { class: "setting" },
              h("legend", { class: "caps" }, label),
              options.map(([value, says]) =>
                h(
                  "label",
                  { class: "choice" },
                  h("input", {
                    type: "radio",
                    name: key,
                    value,
                    checked: (preferences[key] ?? "") === value,
                    onchange: () => prefer(key, value),
                  }),
                  h("span", {}, says),
                ),
              ),
            ),
          ),
        ),
        ringPart(parts, () => tell(this, "ring-tried")),
        h(
          "section",
          { "aria-label": "Batches, money and labels" },
          h("h2", { class: "section-name" }, "Batches, money and labels"),
          parts.settings,
          parts.settingsTrouble,
          parts.kept,
        ),
        h(
          "section",
          { "aria-label": "The server" },
          h("h2", { class: "section-name" }, "The line to the server"),
          h(
            "div",
            { class: "stack" },
            parts.state,
            parts.heard,
            parts.unsent,
            parts.trouble,
            h(
              "button",
              { type: "button", class: "outlined", onclick: () => tell(this, "sync-wanted") },
              "Try now",
            ),
          ),
        ),
        parts.refusedPart,
        h(
          "section",
          { "aria-label": "This phone and the studio" },
          h("h2", { class: "section-name" }, "This phone and the studio"),
          h(
            "dl",
            { class: "facts" },
            h("div", {}, h("dt", {}, "You"), parts.you),
            h("div", {}, h("dt", {}, "Address"), h("dd", {}, parts.address, parts.trust)),
            parts.certificate,
            parts.copy,
            parts.clock,
          ),
          parts.trail,
        ),
        parts.devices,
        parts.cannotPart,
        h(
          "section",
          { "aria-label": "Take it with you" },
          h("h2", { class: "section-name" }, "Take it with you"),
          h(
            "p",
            {},
            "Everything on this phone as one file: runs with their sheets and every entry, and the shelf.",
          ),
          h(
            "div",
            { class: "stack export" },
            h(
              "button",
              { type: "button", class: "outlined", onclick: () => this.#save() },
              "Save what is on this phone",
            ),
            fileLink("/api/v1/export", "bowlside.json", "Save everything from the server"),
          ),
        ),
      ),
    );
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#parts.settingsTrouble, text);
    show(this.#parts.settingsTrouble, text !== "");
    setText(this.#parts.kept, "");
  }

  kept() {
    this.#settings?.saved();
    setText(this.#parts.kept, "Kept.");
  }

  #writeSettings() {
    const { settings, isMaker } = this.#data;
    if (this.#settings) this.#settings.news(settings, isMaker);
    else {
      this.#settings = settingsForm(settings, isMaker);
      this.#parts.settings.append(this.#settings.node);
    }
  }

  /** @param {RefusedRow} item */
  #makeRefused(item) {
    const what = item.picture
      ? "A photograph"
      : item.entry
        ? `${item.entry.kind.replaceAll("_", " ")}, ${clock(item.entry.at)}`
        : "The run itself";
    const run = this.#data.runs.find((each) => each.id === item.run);
    return h(
      "li",
      { class: "refused" },
      h(
        "p",
        {},
        h("b", {}, `${what}: `),
        run ? h("span", { class: "soft" }, `${run.sheet.recipe.title}. `) : null,
        h("span", {}, item.detail),
      ),
      h(
        "div",
        { class: "pair" },
        h(
          "button",
          { type: "button", class: "outlined", onclick: () => tell(this, "send-again", item) },
          "Send again",
        ),
        item.entry
          ? h(
              "button",
              { type: "button", class: "outlined", onclick: () => tell(this, "set-aside", item) },
              "Set aside",
            )
          : null,
      ),
    );
  }

  #save() {
    const runs = this.#data.runs.map(({ id, recipe, size, row, created_at, entries }) => ({
      id,
      recipe,
      size,
      sheet: row.sheet,
      created_at,
      entries,
    }));
    handOver(
      "bowlside-phone.json",
      JSON.stringify({
        format: "bowlside-phone/1",
        saved_at: this.#data.now(),
        runs,
        shelf: this.#data.shelf,
      }),
    );
  }
}

export const registerStudioScreen = () => define("studio-screen", StudioScreen);
