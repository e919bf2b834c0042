// Who is let in to the studio, and a code that lets one more in. For makers, at the studio screen.
//
//   list.data = { devices, you, made, now }   // made: { code, expires_at, address, qr } as the server gave it
//   "devices-wanted", "device-renamed" { id, name }, "device-shut-out" { id }, "role-given" { id, role },
//   "code-wanted" { role }

import { define, first, h, keyed, setText, show, tell } from "./dom.js";
import { pickOne } from "./sheets.js";
import { onTick } from "./ticker.js";
import { day, timeLeft } from "./words.js";
import { say } from "../words.js";
/** @import { Device, Pairing, Role, You } from "../../types/server" */

/** Seen less long ago than this is seen now: the server notes it about once a minute. */
const NOW_MS = 120_000;
/** While a code stands, it is asked this often whether somebody came in by it. */
const ASK_EVERY_MS = 3_000;

/**
 * @typedef {{list: HTMLElement, qr: HTMLImageElement, code: HTMLElement, left: HTMLElement, where: HTMLElement,
 *   said: HTMLElement, ask: HTMLElement, card: HTMLElement}} ListParts
 * @typedef {{devices: Device[], you: You | null | undefined, made: Pairing | null, now: () => number}} ListData
 */

export class DeviceList extends HTMLElement {
  #parts = this.#build();
  #now = Date.now;
  /** @type {Set<string>} */
  #known = new Set();
  /** @type {Pairing | null} */
  #made = null;
  #askedAt = 0;
  #stop = () => {};

  /** @param {ListData} data */
  set data({ devices, you, made, now }) {
    this.#now = now;
    const parts = this.#parts;
    if (!parts.list.isConnected) this.append(parts.list, parts.said, parts.card, parts.ask);
    keyed(
      parts.list,
      devices,
      ({ id }) => id,
      (device) => this.#makeRow(device),
      (row, device) => this.#writeRow(row, device, you),
    );
    const come = this.#made && !made && devices.find(({ id }) => !this.#known.has(id));
    if (come) this.#putAway(say("page-studio-paired", { name: come.name }));
    this.#known = new Set(devices.map(({ id }) => id));
    if (made) this.#showCode(made);
  }

  disconnectedCallback() {
    this.#stop();
  }

  /** @returns {ListParts} */
  #build() {
    /** @param {Role} role */
    const wants = (role) =>
      h(
        "button",
        { type: "button", class: "outlined", onclick: () => this.#askCode(role) },
        say("page-studio-pair-device", { role }),
      );
    const parts = {
      list: h("ul", { class: "rows" }),
      qr: h("img", { class: "code-qr", alt: say("page-studio-qr") }),
      code: h("p", { class: "code figures" }),
      left: h("p", { class: "soft", role: "timer" }),
      where: h("p", { class: "code-how" }),
      said: h("p", { role: "status" }),
      ask: h(
        "div",
        { class: "stack" },
        h("p", { class: "soft" }, [say("page-studio-helpers-may"), say("page-studio-makers-may")].join(" ")),
        h("div", { class: "pair" }, wants("helper"), wants("maker")),
      ),
    };
    const card = h(
      "div",
      { class: "code-card", hidden: true },
      parts.qr,
      h(
        "div",
        { class: "stack" },
        parts.code,
        parts.left,
        parts.where,
        h(
          "button",
          { type: "button", class: "quiet", onclick: () => this.#putAway("") },
          say("page-studio-code-away"),
        ),
      ),
    );
    return { ...parts, card };
  }

  /** @param {Device} device */
  #makeRow(device) {
    const name = h("input", {
      "aria-label": say("page-studio-name"),
      maxlength: 60,
      autocomplete: "off",
      required: true,
    });
    const words = h(
      "div",
      { class: "row-words" },
      h("b", { class: "row-title" }),
      h("span", { class: "soft small" }),
    );
    const form = h(
      "form",
      {
        class: "device-name",
        hidden: true,
        onsubmit: (event) => {
          event.preventDefault();
          tell(this, "device-renamed", { id: device.id, name: name.value.trim() });
          turn(false);
        },
      },
      name,
      h("button", { type: "submit", class: "outlined" }, say("page-common-save")),
    );
    const does = h(
      "div",
      { class: "device-does" },
      h("button", { type: "button", class: "quiet", onclick: () => turn(true) }, say("page-studio-rename")),
      h("button", { type: "button", class: "quiet" }),
      h(
        "button",
        {
          type: "button",
          class: "quiet",
          onclick: () => this.#askShutOut(device.id, first(words).textContent),
        },
        say("page-studio-shut-out-do"),
      ),
    );
    const turn = (/** @type {boolean} */ writing) => {
      for (const node of [words, does]) show(node, !writing);
      show(form, writing);
      name.value = first(words).textContent;
      if (writing) name.select();
    };
    return h("li", { class: "device" }, words, form, does);
  }

  /** @param {HTMLElement} row @param {Device} device @param {You | null | undefined} you */
  #writeRow(row, { id, name, role, seen_at }, you) {
    const [title, says] = first(row).children;
    const mine = id === you?.id;
    setText(title, name);
    const isHere = this.#now() - (seen_at ?? 0) < NOW_MS;
    const other = role === "maker" ? "helper" : "maker";
    const does = first(row, 2);
    const turns = first(does, 1);
    setText(turns, say("page-studio-make", { role: other }));
    turns.onclick = () => this.#askRole(id, name, other);
    show(turns, !mine);
    const seen = mine ? "this" : isHere ? "now" : "at";
    setText(says, say("page-studio-device", { role, seen, at: day(seen_at ?? 0) }));
    show(first(does, 2), !mine); // nobody shuts the door behind themselves by a slip
  }

  /** @param {string} id @param {string} name */
  async #askShutOut(id, name) {
    if (
      await pickOne({
        title: say("page-studio-shut-out-title", { name }),
        says: say("page-studio-shut-out-says"),
        choices: [{ label: say("page-studio-shut-out-name", { name }), value: true }],
      })
    )
      tell(this, "device-shut-out", { id });
  }

  /** What gives a device more is asked once more. @param {string} id @param {string} name @param {Role} role */
  async #askRole(id, name, role) {
    const says = say(role === "maker" ? "page-studio-makers-may" : "page-studio-helper-says");
    if (
      await pickOne({
        title: say("page-studio-make-title", { name, role }),
        says,
        choices: [{ label: say("page-studio-make-do", { name, role }), value: true }],
      })
    )
      tell(this, "role-given", { id, role });
  }

  /** @param {Role} role */
  async #askCode(role) {
    const choices = [{ label: say("page-studio-code-maker"), value: true }];
    const [title, says] = [say("page-studio-code-maker-title"), say("page-studio-makers-may")];
    if (role === "helper" || (await pickOne({ title, says, choices }))) tell(this, "code-wanted", { role });
  }

  /** @param {Pairing} made */
  #showCode(made) {
    const parts = this.#parts;
    this.#made = made;
    this.#askedAt = this.#now();
    setText(parts.said, "");
    setText(parts.code, `${made.code.slice(0, 4)} ${made.code.slice(4)}`);
    setText(
      parts.where,
      say("page-studio-code-how", { address: made.address.split("#")[0].replace("https://", "") }),
    );
    parts.qr.src = `data:image/svg+xml,${encodeURIComponent(made.qr)}`;
    show(parts.card, true);
    show(parts.ask, false);
    this.#stop();
    this.#stop = onTick(() => this.#count());
    this.#count();
  }

  #count() {
    const now = this.#now();
    const left = (this.#made?.expires_at ?? 0) - now;
    if (left <= 0) {
      this.#putAway(say("page-studio-code-over"));
      return;
    }
    setText(this.#parts.left, say("page-studio-code-left", { left: timeLeft(left) }));
    if (now - this.#askedAt < ASK_EVERY_MS) return;
    this.#askedAt = now;
    tell(this, "devices-wanted");
  }

  /** @param {string} says */
  #putAway(says) {
    this.#stop();
    this.#made = null;
    setText(this.#parts.said, says);
    show(this.#parts.card, false);
    show(this.#parts.ask, true);
  }
}

export const registerDeviceList = () => define("device-list", DeviceList);
