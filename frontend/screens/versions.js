// A recipe's versions beside each other: what each changed, in words, and the batches made with it.
//
//   screen.data = { id, recipe }     "history-wanted" { id }     screen.told(versions) or screen.told({ says })
//   "version-taken" { id, version, as: "draft" | "copy" }        screen.trouble("…")

import { define, h, setText, show, tell } from "../parts/dom.js";
import { pageHead } from "../parts/page-head.js";
import { day } from "../parts/words.js";
import { say } from "../words.js";
/** @import { RecipeRow } from "../../types/keep" */
/** @import { VersionTold } from "../../types/server" */

export class VersionsScreen extends HTMLElement {
  #id = "";
  #seen = 0;
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #told = h("div", { class: "versions", "aria-live": "polite" });

  /** @param {{id: string, recipe: RecipeRow}} given */
  set data({ id, recipe }) {
    this.#id = id;
    if (this.#seen === recipe.version) return;
    this.#seen = recipe.version;
    this.#told.replaceChildren(h("p", { class: "soft" }, say("page-common-asking")));
    this.replaceChildren(
      h(
        "div",
        { class: "sheet" },
        pageHead(say("page-versions-title"), ""),
        h("p", {}, recipe.title),
        this.#trouble,
        this.#told,
      ),
    );
    tell(this, "history-wanted", { id });
  }

  /** @param {VersionTold[] | {says: string}} answer */
  told(answer) {
    this.#told.replaceChildren(
      ...("says" in answer
        ? [h("p", { role: "alert" }, answer.says)]
        : answer.map((each, index) => this.#column(each, index === 0))),
    );
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#trouble, text);
    show(this.#trouble, text !== "");
    this.#trouble.scrollIntoView({ block: "nearest" });
  }

  /** @param {VersionTold} told @param {boolean} isNewest */
  #column(told, isNewest) {
    const { version } = told;
    /** @param {"draft" | "copy"} as @param {string} words */
    const way = (as, words) =>
      h(
        "button",
        {
          type: "button",
          class: "quiet",
          onclick: () => tell(this, "version-taken", { id: this.#id, version, as }),
        },
        words,
      );
    const ways = [
      isNewest ? null : way("draft", say("page-versions-write-on")),
      way("copy", say("page-versions-copy")),
    ];
    return column(told, h("div", { class: "r-order" }, ways));
  }
}

/** @param {VersionTold} given @param {HTMLElement} ways what can be done with it */
function column({ version, title, created_at: at, changes, runs }, ways) {
  return h(
    "section",
    { "aria-label": say("page-versions-version", { number: version }) },
    h("h2", {}, say("page-versions-version", { number: version })),
    h("p", { class: "soft small" }, say("page-versions-named", { at: day(at), title })),
    version === 1
      ? h("p", {}, say("page-versions-first"))
      : h(
          "ul",
          { class: "plain" },
          changes.map(({ where, what }) => h("li", {}, h("b", {}, where), h("br"), what)),
        ),
    ways,
    h("h3", { class: "section-name" }, say(runs.length ? "page-versions-made" : "page-versions-not-made")),
    h(
      "ul",
      { class: "plain" },
      runs.map(({ id, size, created_at: began, finished_at: done }) =>
        h(
          "li",
          {},
          h(
            "a",
            { href: `#/${done ? "record" : "bench"}/${id}` },
            say(done ? "page-versions-run" : "page-versions-run-open", {
              at: day(began),
              count: size.pieces,
            }),
          ),
        ),
      ),
    ),
  );
}

export const registerVersionsScreen = () => define("versions-screen", VersionsScreen);
