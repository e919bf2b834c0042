// A recipe's versions beside each other: what each changed, in words, and the batches made with it.
//
//   screen.data = { id, recipe }     "history-wanted" { id }     screen.told(versions) or screen.told({ says })

import { define, h, tell } from "../parts/dom.js";
import { pageHead } from "../parts/page-head.js";
import { day } from "../parts/words.js";
/** @import { RecipeRow } from "../../types/keep" */
/** @import { VersionTold } from "../../types/server" */

export class VersionsScreen extends HTMLElement {
  #seen = 0;
  #told = h("div", { class: "versions", "aria-live": "polite" });

  /** @param {{id: string, recipe: RecipeRow}} given */
  set data({ id, recipe }) {
    if (this.#seen === recipe.version) return;
    this.#seen = recipe.version;
    this.#told.replaceChildren(h("p", { class: "soft" }, "Asking the server\u2026"));
    this.replaceChildren(
      h("div", { class: "sheet" }, pageHead("Versions", ""), h("p", {}, recipe.title), this.#told),
    );
    tell(this, "history-wanted", { id });
  }

  /** @param {VersionTold[] | {says: string}} answer */
  told(answer) {
    this.#told.replaceChildren(
      ...("says" in answer ? [h("p", { role: "alert" }, answer.says)] : answer.map(column)),
    );
  }
}

/** @param {VersionTold} given */
function column({ version, title, created_at: at, changes, runs }) {
  return h(
    "section",
    { "aria-label": `Version ${version}` },
    h("h2", {}, `Version ${version}`),
    h("p", { class: "soft small" }, `${day(at)}: ${title}`),
    version === 1
      ? h("p", {}, "The first.")
      : h(
          "ul",
          { class: "plain" },
          changes.map(({ where, what }) => h("li", {}, h("b", {}, where), h("br"), what)),
        ),
    h("h3", { class: "section-name" }, runs.length ? "Made with it" : "Nothing made with it yet"),
    h(
      "ul",
      { class: "plain" },
      runs.map(({ id, size, created_at: began, finished_at: done }) =>
        h(
          "li",
          {},
          h("a", { href: `#/${done ? "record" : "bench"}/${id}` }, `${day(began)}, ${size.pieces}`),
          done ? "" : ", still open",
        ),
      ),
    ),
  );
}

export const registerVersionsScreen = () => define("versions-screen", VersionsScreen);
