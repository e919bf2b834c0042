// Settings, who may come in, and the plain truth about the line to the server and what this browser cannot do.
//
//   screen.data = { link, place, isMaker, preferences, settings, runs, shelf, now, ringing }
//   "preferred" { key, value }, "sync-wanted", "update-wanted", "send-again" / "set-aside" { run, entry }
//   "settings-written" { document }; answered by screen.kept() or screen.trouble("…")
//   "devices-wanted", and what parts/device-list.js tells; answered by
//   screen.told({ devices, made } or { says })

import { saysOf } from "../bench/errors.js";
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
import { ringState, willRing } from "../parts/ring-state.js";
import { clock, COPY_OLD_MS, day, dayOnly, duration } from "../parts/words.js";
import { deedWords } from "../parts/undo-words.js";
import { languages, point, say } from "../words.js";
/** @import { CopiesNow, DeviceItem, PairingMade } from "../../types/answers" */
/** @import { KeptEntry, Link, Preferences, RefusedRow } from "../../types/keep" */
/** @import { Place, SettingsDocument } from "../../types/server" */
/** @import { Run } from "../keep/run.js" */
/** @import { RingFacts } from "../parts/ring-state.js" */
/** @import { DeviceList } from "../parts/device-list.js" */

const DAY_MS = 24 * 3_600_000;
/** The certificate renews itself long before this, and a copy is made every night. */
const CERTIFICATE_SOON_MS = 5 * DAY_MS;

/** @returns {[key: ChoiceKey, label: string, options: [value: string, says: string][]][]} */
const wordChoices = () => [
  ["language", say("language-choice"), [["", say("language-as-phone")], ...Object.entries(languages())]],
  [
    "mass",
    say("language-masses"),
    [
      ["g", say("language-masses-g")],
      ["oz", say("language-masses-oz")],
    ],
  ],
  [
    "warmth",
    say("language-temperatures"),
    [
      ["c", "\u00b0C"],
      ["f", "\u00b0F"],
    ],
  ],
];
/** @returns {[key: ChoiceKey, label: string, options: [value: string, says: string][]][]} */
const choices = () => [
  ...wordChoices(),
  [
    "theme",
    say("page-studio-colours"),
    [
      ["auto", say("language-as-phone")],
      ["day", say("page-studio-day")],
      ["night", say("page-studio-night")],
    ],
  ],
  [
    "weigh",
    say("page-studio-weighing"),
    [
      ["running", say("page-bench-weigh-running")],
      ["tare", say("page-bench-weigh-tare")],
    ],
  ],
  [
    "dry",
    say("page-studio-dry"),
    [
      ["", say("page-studio-dry-constant", { mass: `0${point()}50 mg` })],
      ["2000", say("page-studio-dry-own", { mass: "2 mg" })],
      ["5000", say("page-studio-dry-own", { mass: "5 mg" })],
    ],
  ],
];
/** @returns {[key: SwitchKey, label: string][]} */
const switches = () => [
  ["sound", say("page-studio-ring")],
  ["speech", say("page-studio-speech")],
];

/** @param {Place | null | undefined} place */
function whoIsHere(place) {
  if (!place) return say("page-studio-who-unknown");
  if (!place.you) return say("page-studio-who-here", { option: "--lan" });
  return say("page-studio-who", { name: place.you.name, role: place.you.role });
}

/** "Last copy 03:10, read back whole, 28 400 entries". @param {CopiesNow} copies @param {number} now */
function copyWords({ last_at, read_back, entries }, now) {
  if (!last_at) return say("page-studio-no-copy");
  const at = dayOnly(last_at) === dayOnly(now) ? clock(last_at) : day(last_at);
  return [
    say("page-studio-copy", { at }),
    read_back ? say("page-studio-read-back", { how: read_back }) : "",
    entries === null ? "" : say("page-studio-entries", { count: entries }),
  ]
    .filter(Boolean)
    .join(", ");
}

/** @param {CopiesNow} copies @param {number} now */
function copyWarning({ last_at, failed_why, stopped }, now) {
  const isOld = last_at && last_at < now - COPY_OLD_MS;
  const why = failed_why ? say("page-studio-copy-failed", { why: failed_why }) : "";
  const what = stopped || isOld ? say("page-studio-copy-stopped") : why && say("page-studio-copy-again");
  return [why, what].filter(Boolean).join(" ");
}

/** @param {string} label */
const fact = (label) =>
  h("div", {}, h("dt", {}, label), h("dd", {}, h("span", {}), h("span", { class: "small" })));

/** An iPhone, in the order in which it is to be done. Of the steps from memory, no phone was touched. */
const onIphone = () => [
  say("page-studio-iphone-install"),
  say("page-studio-iphone-pair"),
  say("page-studio-iphone-lock"),
  say("page-studio-iphone-silent"),
];
const whenItRings = () => [
  say("page-studio-ring-open"),
  say(isApple ? "page-studio-ring-dark-apple" : "page-studio-ring-dark"),
  say("page-studio-ring-calendar"),
];

/** @param {{willRing: Node, ringing: Node}} parts @param {() => void} onclick */
function ringPart(parts, onclick) {
  return h(
    "section",
    { "aria-label": say("page-bench-will-it-ring") },
    h("h2", { class: "section-name" }, say("page-bench-will-it-ring")),
    parts.willRing,
    parts.ringing,
    h(
      "ul",
      { class: "plain" },
      whenItRings().map((text) => h("li", {}, text)),
    ),
    isApple
      ? [
          h("h3", {}, say("page-studio-iphone")),
          h(
            "ol",
            { class: "plain" },
            (isInstalled ? onIphone().slice(2) : onIphone()).map((text) => h("li", {}, text)),
          ),
        ]
      : null,
    h("button", { type: "button", class: "outlined", onclick }, say("page-studio-ring-test")),
  );
}

/**
 * @typedef {{link: Link, place: Place | null | undefined, isMaker: boolean, preferences: Preferences,
 *   settings: SettingsDocument, runs: readonly Run[], shelf: readonly KeptEntry[], now: () => number,
 *   ringing: RingFacts}} StudioData
 * @typedef {{devices?: DeviceItem[], made?: PairingMade | null, says?: string}} Devices
 * @typedef {"theme" | "language" | "mass" | "warmth" | "weigh" | "dry"} ChoiceKey
 * @typedef {"sound" | "speech"} SwitchKey
 */

export class StudioScreen extends HTMLElement {
  #parts = this.#makeParts();
  /** @type {StudioData} */
  #data = given();
  #asked = false;
  /** @type {ReturnType<typeof import("../parts/studio-settings.js").settingsForm> | null} */
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
          ? say("page-studio-trusted")
          : say("page-studio-not-trusted")
        : say("page-studio-plain-http"),
    );
    setText(
      parts.trust,
      [say("page-studio-needs"), say(link.secure ? "page-studio-trust" : "page-studio-open-https")].join(" "),
    );
    show(parts.trust, !link.secure || !link.trusted);
    this.#fact(
      parts.certificate,
      place?.certificate_ends_at,
      (at) => say("page-studio-good-until", { at: day(at) }),
      (at) => at < data.now() + CERTIFICATE_SOON_MS && say("page-studio-not-renewed"),
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
      () => say("page-studio-clock-wrong"),
      (says) => says,
    );
    if (link.shut)
      setText(
        parts.shutSays,
        say(link.shut === "unpaired" ? "page-studio-shut-unpaired" : "page-studio-shut-out"),
      );
    show(parts.shut, Boolean(link.shut));
    setText(
      parts.leap,
      [
        say("page-studio-leap", {
          way: link.leap > 0 ? "forward" : "back",
          length: duration(Math.abs(link.leap)),
        }),
        say("page-studio-leap-timers"),
      ].join(" "),
    );
    show(parts.leap, Boolean(link.leap));
    show(parts.trail, data.isMaker);
    setText(parts.willRing, willRing(data.ringing));
    keyed(
      parts.ringing,
      ringState(data.ringing),
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
        ? say("page-studio-not-let-in")
        : link.state === "asking"
          ? say("page-studio-asking")
          : link.state === "online"
            ? say("page-studio-online")
            : say("page-keep-away"),
    );
    setText(
      parts.heard,
      link.heard_at ? say("page-studio-heard", { at: day(link.heard_at) }) : say("page-studio-not-heard"),
    );
    setText(parts.unsent, say("page-studio-unsent", { count: link.unsent }));
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
      certificate: fact(say("page-studio-certificate")),
      copy: fact(say("page-studio-copies")),
      clock: fact(say("page-studio-clock")),
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
        say("page-studio-send-all"),
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
        say("page-studio-newer"),
        " ",
        h(
          "button",
          { type: "button", class: "outlined", onclick: () => tell(this, "update-wanted") },
          say("page-studio-newer-use"),
        ),
      ),
    };
    const refusedPart = h(
      "section",
      { "aria-label": say("page-studio-refused") },
      h("h2", { class: "section-name" }, say("page-studio-refused")),
      h("p", { class: "soft" }, say("page-studio-refused-stay")),
      parts.refused,
      parts.all,
    );
    const shut = h(
      "section",
      { class: "notice shut", "aria-label": say("page-studio-door"), role: "status" },
      parts.shutSays,
      h("a", { class: "button copper", href: "/pair" }, say("page-studio-pair")),
    );
    const devices = h(
      "section",
      { "aria-label": say("page-studio-devices") },
      h("h2", { class: "section-name" }, say("page-studio-devices")),
      parts.listSays,
      parts.list,
    );
    const trail = h(
      "p",
      {},
      h("a", { class: "button quiet add-row", href: "#/audit" }, say("page-title-audit")),
    );
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
        pageHead(say("page-title-studio"), "studio"),
        parts.update,
        parts.shut,
        parts.leap,
        h(
          "section",
          { "aria-label": say("page-studio-bench") },
          h("h2", { class: "section-name" }, say("page-studio-bench")),
          switches().map(([key, label]) =>
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
          choices().map(([key, label, options]) =>
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
          { "aria-label": say("page-studio-own") },
          h("h2", { class: "section-name" }, say("page-studio-own")),
          parts.settings,
          parts.settingsTrouble,
          parts.kept,
        ),
        h(
          "section",
          { "aria-label": say("page-studio-server") },
          h("h2", { class: "section-name" }, say("page-studio-server")),
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
              say("page-studio-try"),
            ),
          ),
        ),
        parts.refusedPart,
        h(
          "section",
          { "aria-label": say("page-studio-phone") },
          h("h2", { class: "section-name" }, say("page-studio-phone")),
          h(
            "dl",
            { class: "facts" },
            h("div", {}, h("dt", {}, say("page-studio-you")), parts.you),
            h("div", {}, h("dt", {}, say("page-studio-address")), h("dd", {}, parts.address, parts.trust)),
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
          { "aria-label": say("page-studio-take") },
          h("h2", { class: "section-name" }, say("page-studio-take")),
          h("p", {}, say("page-studio-take-says")),
          h(
            "div",
            { class: "stack export" },
            h(
              "button",
              { type: "button", class: "outlined", onclick: () => this.#save() },
              say("page-studio-take-phone"),
            ),
            fileLink("/api/v1/export", "bowlside.json", say("page-studio-take-server")),
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
    setText(this.#parts.kept, say("page-studio-saved"));
  }

  /** They are the server's to keep, so their form comes with a connection. */
  async #writeSettings() {
    const news = () => this.#settings?.news(this.#data.settings, this.#data.isMaker);
    if (this.#settings) return news();
    try {
      const { settingsForm } = await (await import("../connected.js")).studioSettings();
      if (this.#settings) return news(); // it was on its way already
      this.#settings = settingsForm(this.#data.settings, this.#data.isMaker);
      this.#parts.settings.replaceChildren(this.#settings.node);
    } catch (error) {
      if (!saysOf(error)) throw error;
      this.#parts.settings.replaceChildren(h("p", { class: "soft" }, saysOf(error)));
    }
  }

  /** @param {RefusedRow} item */
  #makeRefused(item) {
    const run = this.#data.runs.find((each) => each.id === item.run);
    const what = item.picture
      ? say("page-studio-refused-photo")
      : item.entry
        ? `${deedWords(item.entry, run?.sheet)}, ${clock(item.entry.at)}`
        : say("page-studio-refused-batch");
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
          say("page-studio-send-again"),
        ),
        item.entry
          ? h(
              "button",
              { type: "button", class: "outlined", onclick: () => tell(this, "set-aside", item) },
              say("page-studio-set-aside"),
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
