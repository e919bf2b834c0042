// What was done to the studio itself, by whom and when: for makers, from the server, the newest first.
//
//   screen.data = { isOnline }
//   "audit-wanted" { before }; answered by screen.told({ audit, before } or { says })

import { define, h, setText, show, tell } from "../parts/dom.js";
import { pageHead } from "../parts/page-head.js";
import { clock, dayOnly } from "../parts/words.js";

class AuditScreen extends HTMLElement {
  #parts = null;
  #before = null;
  #day = "";
  #isAsking = false;
  #isRead = false;

  set data({ isOnline }) {
    if (!this.#parts) this.#build();
    if (!this.#isRead && isOnline) this.#ask();
  }

  told({ audit, before = null, says = "" }) {
    const { days, note, more } = this.#parts;
    this.#isAsking = false;
    this.#isRead ||= Boolean(audit);
    for (const row of audit ?? []) this.#add(row);
    if (audit) this.#before = before;
    setText(note, says || (days.firstChild ? "" : "Nothing yet."));
    show(note, note.textContent !== "");
    show(more, this.#before !== null || !this.#isRead);
    setText(more, this.#isRead ? "Show older" : "Try again");
  }

  /** A row under its day. */
  #add({ at, who, says }) {
    const { days } = this.#parts;
    const name = dayOnly(at);
    if (name !== this.#day) {
      this.#day = name;
      days.append(
        h(
          "section",
          { "aria-label": name },
          h("h2", { class: "section-name" }, name),
          h("ul", { class: "times" }),
        ),
      );
    }
    days.lastChild.lastChild.append(
      h(
        "li",
        {},
        h("time", { datetime: new Date(at).toISOString() }, clock(at)),
        h("span", {}, h("b", {}, who), ` ${says}`),
      ),
    );
  }

  #ask() {
    if (this.#isAsking) return;
    this.#isAsking = true;
    tell(this, "audit-wanted", { before: this.#before });
  }

  #build() {
    const parts = {
      note: h("p", { class: "soft", role: "status" }, "Asking the server\u2026"),
      days: h("div", {}),
      more: h(
        "button",
        { type: "button", class: "outlined", hidden: true, onclick: () => this.#ask() },
        "Show older",
      ),
    };
    this.#parts = parts;
    this.append(
      h(
        "div",
        { class: "sheet stack" },
        pageHead("Who did what", "", ["#/studio", "Settings"]),
        h(
          "p",
          { class: "soft" },
          "Devices, roles, settings, files and copies. Nothing here can be changed or removed.",
        ),
        parts.note,
        parts.days,
        parts.more,
      ),
    );
  }
}

export const registerAuditScreen = () => define("audit-screen", AuditScreen);
