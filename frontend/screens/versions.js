// A recipe's versions and how it is filed: any one opened, printed, made or put back; any two compared; tags, archive.
//
//   screen.data = { id, recipe }     "history-wanted" { id, page }   screen.told({ versions, pages }) or told({ says })
//   "version-taken" { id, version, as: "draft" | "copy" | "newest" }                screen.trouble("…")
//   "changes-wanted" { id, from, to }      screen.compared({ changes } or { says }, { from, to })
//   "recipe-filed" { id, tags, archived }  screen.said("…")

import { define, h, setText, show, tell } from "../parts/dom.js";
import { askOnline } from "../parts/online.js";
import { outcomeRows } from "../parts/outcome-rows.js";
import { OwnDraft } from "../parts/own-draft.js";
import { pageHead } from "../parts/page-head.js";
import { day } from "../parts/words.js";
import { say } from "../words.js";
/** @import { RecipeRow } from "../../types/keep" */
/** @import { Changes } from "../../types/answers" */
/** @import { VersionTold } from "../../types/server" */

const MOST_TAGS = 20;

export class VersionsScreen extends HTMLElement {
  #id = "";
  #seen = "";
  #page = 0;
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #said = h("p", { class: "soft small", role: "status" });
  #tags = h("input", { type: "text", autocomplete: "off" });
  #draft = new OwnDraft();
  #isFiled = false; // by this page, and its news has not come yet
  #filed = h("div", { class: "stack" });
  #filing = h("section", { class: "stack", "aria-label": say("page-versions-filing") });
  #asked = ""; // which two were to be compared last
  #comparing = h("section", { class: "stack", "aria-label": say("page-versions-compare"), hidden: true });
  #told = h("div", { class: "versions", "aria-live": "polite" });
  #more = h(
    "button",
    { type: "button", class: "quiet add-row", hidden: true, onclick: () => this.#ask(this.#page + 1) },
    say("page-versions-more"),
  );

  /** @param {{id: string, recipe: RecipeRow}} given */
  set data({ id, recipe }) {
    const seen = `${recipe.version} ${recipe.tags} ${recipe.archived_at}`;
    if (this.#seen === seen) return;
    const isNews = Number.parseInt(this.#seen, 10) !== recipe.version;
    const isFirst = this.#seen === "";
    [this.#id, this.#seen] = [id, seen];
    if (isFirst) this.#openFiling(recipe);
    this.#file(recipe);
    if (!isNews) return;
    this.#compare(recipe.version);
    this.#told.replaceChildren(h("p", { class: "soft" }, say("page-common-asking")));
    this.replaceChildren(
      h(
        "div",
        { class: "sheet" },
        pageHead(say("page-versions-title"), ""),
        h("p", {}, recipe.title),
        this.#trouble,
        this.#said,
        this.#filing,
        this.#comparing,
        this.#told,
        this.#more,
      ),
    );
    this.#ask(1);
  }

  /** @param {number} page */
  #ask(page) {
    tell(this, "history-wanted", { id: this.#id, page });
  }

  /** @param {{versions: VersionTold[], page: number, pages: number} | {says: string}} answer */
  told(answer) {
    if ("says" in answer) {
      this.#told.replaceChildren(h("p", { role: "alert" }, answer.says));
      return;
    }
    const columns = answer.versions.map((each, place) =>
      this.#column(each, answer.page === 1 && place === 0),
    );
    if (answer.page === 1) this.#told.replaceChildren(...columns);
    else if (answer.page === this.#page + 1) this.#told.append(...columns);
    this.#page = answer.page;
    show(this.#more, answer.page < answer.pages);
  }

  /** @param {Changes | {says: string}} answer @param {{from: number, to: number}} two */
  compared(answer, { from, to }) {
    if (this.#asked !== `${from} ${to}`) return; // it came late: others were chosen since
    const list = this.#comparing.lastElementChild;
    list?.replaceChildren(
      "says" in answer
        ? h("p", { role: "alert" }, answer.says)
        : answer.changes.length
          ? changesList(answer.changes)
          : h("p", {}, say("page-versions-alike")),
    );
  }

  /** @param {string} text */
  said(text) {
    this.trouble("");
    setText(this.#said, text);
    this.#isFiled = true;
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#trouble, text);
    show(this.#trouble, text !== "");
    if (text) this.#trouble.scrollIntoView({ block: "nearest" });
  }

  /** @param {RecipeRow} recipe */
  #openFiling({ id, tags = [] }) {
    this.#filing.append(
      h("a", { class: "button quiet", href: `#/trials/${id}` }, say("page-trials-try")),
      h(
        "label",
        { class: "field" },
        h("span", {}, say("page-versions-tags")),
        this.#tags,
        this.#draft.own("tags", this.#tags, tags.join(", ")),
      ),
      this.#filed,
    );
  }

  /** @param {RecipeRow} recipe */
  #file({ id, tags = [], archived_at: at }) {
    this.#draft.news({ tags: tags.join(", ") });
    if (this.#isFiled) this.#draft.saved();
    this.#isFiled = false;
    const written = () =>
      this.#tags.value
        .split(",")
        .map((tag) => tag.trim())
        .filter(Boolean)
        .slice(0, MOST_TAGS + 1); // one too many is the server's to refuse, in words
    /** @param {boolean} archived */
    const file = (archived) => {
      this.#draft.sent();
      tell(this, "recipe-filed", { id, tags: written(), archived });
    };
    const ways = [
      h(
        "button",
        { type: "button", class: "outlined", onclick: () => file(Boolean(at)) },
        say("page-versions-save-tags"),
      ),
      h(
        "button",
        { type: "button", class: "quiet", onclick: () => file(!at) },
        say(at ? "page-versions-take-back" : "page-versions-archive"),
      ),
    ];
    this.#filed.replaceChildren(
      h("div", { class: "r-order" }, ways),
      at ? h("p", { class: "soft small" }, say("page-versions-archived", { at: day(at) })) : "",
    );
  }

  /** Any two, from the older to the newer or back. @param {number} newest */
  #compare(newest) {
    /** @param {string} label @param {number} chosen */
    const pick = (label, chosen) => {
      const options = Array.from({ length: newest }, (_, place) => newest - place).map((number) =>
        h("option", { value: number, selected: number === chosen }, say("page-versions-version", { number })),
      );
      const select = h("select", {}, options);
      return { select, field: h("label", { class: "field" }, h("span", {}, label), select) };
    };
    const [from, to] = [pick(say("page-versions-from"), 1), pick(say("page-versions-to"), newest)];
    const came = h("div", { class: "stack", "aria-live": "polite" });
    const ask = async () => {
      const [before, version] = [Number(from.select.value), Number(to.select.value)];
      const asked = `${before} ${version}`;
      this.#asked = asked;
      tell(this, "changes-wanted", { id: this.#id, from: before, to: version });
      if (before === version) return came.replaceChildren();
      const path = /** @type {const} */ (
        `/recipes/${this.#id}/versions/${version}/outcomes?before=${before}`
      );
      const told = await askOnline(this, "GET", path);
      if (this.#asked === asked) came.replaceChildren(...("says" in told ? [] : outcomeRows(told)));
    };
    this.#comparing.replaceChildren(
      h("a", { class: "button quiet", href: `#/figures/${this.#id}` }, say("page-title-figures")),
      h("div", { class: "r-order" }, from.field, to.field),
      h("button", { type: "button", class: "outlined", onclick: ask }, say("page-versions-compare")),
      came,
      h("div", { "aria-live": "polite" }),
    );
    show(this.#comparing, newest > 1);
  }

  /** @param {VersionTold} told @param {boolean} isNewest */
  #column(told, isNewest) {
    const { version } = told;
    const address = isNewest ? this.#id : `${this.#id}@${version}`;
    /** @param {"draft" | "copy" | "newest"} as @param {string} words */
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
      h("a", { class: "button quiet", href: `#/card/${address}` }, say("page-versions-open")),
      h("a", { class: "button quiet", href: `#/size/${address}` }, say("page-versions-make")),
      isNewest ? null : way("newest", say("page-versions-restore")),
      isNewest ? null : way("draft", say("page-versions-write-on")),
      way("copy", say("page-versions-copy")),
    ];
    return column(told, h("div", { class: "r-order" }, ways));
  }
}

/** @param {Changes["changes"]} changes */
const changesList = (changes) =>
  h(
    "ul",
    { class: "plain" },
    changes.map(({ where, what }) => h("li", {}, h("b", {}, where), h("br"), what)),
  );

/** @param {VersionTold} given @param {HTMLElement} ways what can be done with it */
function column({ version, title, created_at: at, changes, runs }, ways) {
  return h(
    "section",
    { "aria-label": say("page-versions-version", { number: version }) },
    h("h2", {}, say("page-versions-version", { number: version })),
    h("p", { class: "soft small" }, say("page-versions-named", { at: day(at), title })),
    version === 1 ? h("p", {}, say("page-versions-first")) : changesList(changes),
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
