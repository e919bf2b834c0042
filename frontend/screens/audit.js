// What was done to the studio itself, by whom and when: for makers, from the server, the newest first.
//
//   screen.data = { isOnline }
//   "audit-wanted" { before }; answered by screen.told({ audit, before } or { says })

import { define, h, part, setText, show, tell } from "../parts/dom.js";
import { FromServer } from "../parts/from-server.js";
import { pageHead } from "../parts/page-head.js";
import { clock, dayOnly } from "../parts/words.js";
import { say } from "../words.js";
/** @import { AuditItem, AuditPage } from "../../types/server" */

export class AuditScreen extends HTMLElement {
  #note = h("p", { class: "soft", role: "status" }, say("page-common-asking"));
  #days = h("div", {});
  #server = new FromServer(() => this.#ask());
  #more = h(
    "button",
    { type: "button", class: "outlined", hidden: true, onclick: () => this.#ask() },
    say("page-audit-older"),
  );
  #isBuilt = false;
  /** @type {string | null} */
  #before = null;
  #day = "";
  #isAsking = false;

  /** @param {{isOnline: boolean}} given */
  set data({ isOnline }) {
    if (!this.#isBuilt) this.#build();
    this.#server.draw(isOnline);
  }

  /** @param {Partial<AuditPage> & {says?: string}} answer */
  told({ audit, before = null, says = "" }) {
    const { note, days } = { note: this.#note, days: this.#days };
    this.#isAsking = false;
    for (const row of audit ?? []) this.#add(row);
    if (audit) this.#before = before;
    setText(note, says || (days.firstChild ? "" : say("page-audit-none")));
    show(note, note.textContent !== "");
    show(this.#more, this.#before !== null);
    this.#server.ended(Boolean(audit));
  }

  /** A row under its day. @param {AuditItem} given */
  #add({ at, who, says }) {
    const days = this.#days;
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
    part(days, "section:last-child ul").append(
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
    this.#isBuilt = true;
    this.append(
      h(
        "div",
        { class: "sheet stack" },
        pageHead(say("page-audit-title"), "", ["#/studio", say("page-common-settings")]),
        h("p", { class: "soft" }, say("page-audit-says")),
        this.#note,
        this.#days,
        this.#more,
        this.#server.again,
      ),
    );
  }
}

export const registerAuditScreen = () => define("audit-screen", AuditScreen);
