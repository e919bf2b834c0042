// The week: what is wanted by when, where it comes from, and the plan of it. All of it is the server's.
//
//   screen.data = { recipes, isMaker, isOnline, now, newId }
//   "week-asked" { what: "look" | "plan" | "follow" | "say", … }
//   screen.told(looked, asked, says)   how all of it stands, once that was done; says: why it was not
//   screen.away(asked, says)           nothing was heard

import { define, given, h, setText, show, tell } from "../parts/dom.js";
import { pageHead } from "../parts/page-head.js";
import { askChange, askWanted, nextSaturday, saidOf } from "../parts/week-forms.js";
import { buyRows, planRows } from "../parts/week-plan.js";
import { soon } from "../parts/words.js";
import { say } from "../words.js";
/** @import { OrderLine, OrderWant, WantState } from "../../bench/shapes/page" */
/** @import { RecipeRow } from "../../types/keep" */
/** @import { WantSaid, WeekAsked } from "../../types/told" */
/** @import { WeekLooked } from "../keep/week.js" */

const LOOK_EVERY_MS = 10_000;

/**
 * @typedef {{recipes: readonly RecipeRow[], isMaker: boolean, isOnline: boolean, now: () => number,
 *   newId: () => string}} WeekData
 */

export class WeekScreen extends HTMLElement {
  /** @type {WeekData} */
  #data = given();
  /** @type {WeekLooked | null} */
  #looked = null;
  #asked = -Infinity; // when it was looked at last
  #isPlanning = false;
  #planned = ""; // the mark for which a plan was asked: once
  /** @type {WantSaid[]} */
  #unsent = []; // what was said and not saved
  /** @type {Set<string>} */
  #open = new Set();
  #trouble = h("p", { class: "trouble", role: "alert", hidden: true });
  #again = h(
    "button",
    { type: "button", class: "outlined", hidden: true, onclick: () => this.#sendAgain() },
    say("page-week-send-again"),
  );
  #said = h("p", { class: "soft small", role: "status" });
  #add = h("button", { type: "button", class: "copper", onclick: () => this.#ask() }, say("page-week-add"));
  #none = h("p", { class: "soft" }, say("page-week-none"));
  #list = h("div", { class: "stack" });
  #works = h("p", { class: "notice", role: "status", hidden: true }, say("page-week-planning"));
  #offered = h("section", { class: "law stack", hidden: true, "aria-label": say("page-week-take") });
  #plan = h("section", { class: "stack", "aria-label": say("page-week-plan") });
  #buy = h("section", { class: "stack", "aria-label": say("page-week-buy") });

  /** @param {WeekData} data */
  set data(data) {
    const wasOnline = this.#data?.isOnline;
    this.#data = data;
    if (!this.childElementCount) this.#build();
    show(this.#add, data.isMaker);
    const isDue = data.now() - this.#asked > LOOK_EVERY_MS;
    if (data.isOnline && (isDue || !wasOnline)) this.#tell({ what: "look" });
    if (!data.isOnline && !this.#looked) this.trouble(say("page-week-away"));
  }

  #build() {
    this.append(
      h(
        "div",
        { class: "sheet week" },
        pageHead(say("page-title-week"), "week"),
        h("div", { class: "stack" }, this.#trouble, this.#again, this.#said),
        h(
          "div",
          { class: "week-sides" },
          h(
            "section",
            { class: "stack", "aria-label": say("page-week-wanted") },
            this.#none,
            this.#list,
            this.#add,
          ),
          h("div", { class: "stack" }, this.#works, this.#offered, this.#plan, this.#buy),
        ),
      ),
    );
  }

  /** @param {string} text */
  trouble(text) {
    setText(this.#trouble, text);
    show(this.#trouble, text !== "");
  }

  /** @param {WeekLooked} looked @param {WeekAsked} asked @param {string} says */
  told(looked, asked, says) {
    this.#looked = looked;
    this.#ended(asked, says);
    this.#write();
    const { followed, offered, mark } = looked.now;
    if (says || !looked.wants.length || !this.#data.isMaker || this.#isPlanning) return;
    const isOld = followed?.mark !== mark && !offered;
    if (isOld && this.#planned !== mark) this.#replan(mark, followed === null);
    else if (followed?.quick && followed.mark === mark) this.#replan(mark);
  }

  /** @param {WeekAsked} asked @param {string} says */
  away(asked, says) {
    this.#ended(asked, says);
    if (!says) return;
    this.trouble(says);
  }

  /** @param {WeekAsked} asked @param {string} says */
  #ended(asked, says) {
    if (asked.what === "plan") this.#isPlanning = false;
    show(this.#works, this.#isPlanning);
    if (asked.what !== "look") this.trouble(says);
    else if (!says && !this.#unsent.length && this.#looked) this.trouble("");
    if (asked.what !== "say") return;
    this.#unsent = says ? [...asked.lines] : [];
    show(this.#again, this.#unsent.length > 0);
    if (!says) this.#say(asked);
  }

  /** @param {Extract<WeekAsked, {what: "say"}>} asked */
  #say({ lines, says }) {
    this.#said.replaceChildren(says);
    const { said, id } = lines[0];
    if (said.state === "open") return;
    const back = () => this.#turn(id, said, "open", say("page-week-saved"));
    this.#said.append(" ", this.#does(say("page-week-put-back"), "", back));
  }

  /** @param {WeekAsked} asked */
  #tell(asked) {
    this.#asked = this.#data.now();
    tell(this, "week-asked", asked);
  }

  /** @param {string} mark @param {boolean} [isQuick] a first plan, which a better one replaces */
  #replan(mark, isQuick = false) {
    this.#planned = mark;
    this.#isPlanning = true;
    show(this.#works, true);
    this.#tell({ what: "plan", isQuick });
  }

  /** What was not saved, with the versions that are seen by now. */
  #sendAgain() {
    const versions = new Map(this.#looked?.wants.map(({ id, version }) => [id, version]));
    const lines = this.#unsent.map((each) => ({ ...each, version: versions.get(each.id) ?? each.version }));
    this.#tell({ what: "say", lines, says: say("page-week-saved") });
  }

  /** @param {readonly WantSaid[] | null} lines @param {string} says */
  #keep(lines, says) {
    if (lines?.length) this.#tell({ what: "say", lines, says });
  }

  async #ask() {
    const { recipes, newId, now } = this.#data;
    const wants = this.#looked?.wants ?? [];
    const by = Math.max(0, ...wants.map((line) => line.by));
    const wanted = new Set(wants.map(({ recipe }) => recipe));
    const turned = [...recipes].sort((one, two) => Number(wanted.has(two.id)) - Number(wanted.has(one.id)));
    const outlets = this.#looked?.outlets ?? [];
    const asked = { recipes: turned, outlets, by: by > now() ? by : nextSaturday(now()), newId, now: now() };
    this.#keep(await askWanted(asked), say("page-week-saved"));
  }

  /** @param {OrderWant} line @param {string} title */
  async #change(line, title) {
    const outlets = this.#looked?.outlets ?? [];
    const said = await askChange(line, { title, outlets, now: this.#data.now() });
    this.#keep(said && [said], say("page-week-saved"));
  }

  /** @param {string} id @param {WantSaid["said"]} said @param {WantState} state @param {string} says */
  #turn(id, said, state, says) {
    const known = this.#looked?.wants.find((line) => line.id === id);
    // One that was met or dropped here a moment ago is a version further on than it was said under.
    const version = known?.version ?? this.#versions.get(id) ?? null;
    if (version !== null) this.#keep([{ id, version, said: { ...said, state } }], says);
  }

  /** @type {Map<string, number>} */
  #versions = new Map();

  #write() {
    const looked = this.#looked;
    if (!looked) return;
    const { now: at, wants, buying } = looked;
    /** @type {Map<string, OrderWant[]>} */
    const groups = new Map();
    for (const line of wants) {
      const key = [line.by, line.outlet, line.note].join(" ");
      groups.set(key, [...(groups.get(key) ?? []), line]);
    }
    this.#list.replaceChildren(...[...groups.values()].map((lines) => this.#group(lines)));
    show(this.#none, wants.length === 0);
    this.#add.className = wants.length ? "outlined" : "copper"; // copper is the batch to begin next
    const { followed, offered, begun } = at;
    const now = this.#data.now();
    const mine = this.#data.isMaker;
    show(this.#offered, offered !== null && mine);
    this.#offered.replaceChildren(
      ...(offered
        ? [
            h("p", {}, say("page-week-new")),
            h(
              "button",
              {
                type: "button",
                class: "outlined",
                onclick: () => this.#tell({ what: "follow", plan: offered.id }),
              },
              say("page-week-take"),
            ),
            ...planRows(offered, { begun: [], now, isFollowed: false }),
          ]
        : []),
    );
    const isOld = followed !== null && followed.mark !== at.mark && offered === null;
    this.#plan.replaceChildren(
      ...(followed && wants.length
        ? [
            h("h2", { class: "section-name" }, say("page-week-plan")),
            isOld ? h("p", { class: "soft" }, say("page-week-changed")) : "",
            ...planRows(followed, { begun, now, isFollowed: true }),
          ]
        : []),
      mine && wants.length ? this.#does(say("page-week-again"), "", () => this.#replan(at.mark)) : "",
    );
    this.#buy.replaceChildren(...(buying && wants.length ? buyRows(buying) : []));
  }

  /** @param {OrderWant[]} lines by one instant, for one outlet */
  #group(lines) {
    const [{ by, outlet, note }] = lines;
    const name = this.#looked?.outlets.find(({ id }) => id === outlet)?.name;
    const head = [soon(by), name, note].filter(Boolean).join(", ");
    return h(
      "section",
      { "aria-label": head },
      h("h2", { class: "section-name" }, head),
      h(
        "ul",
        { class: "rows" },
        lines.map((line) => this.#row(line)),
      ),
    );
  }

  /** @param {OrderWant} line */
  #row(line) {
    const { id, recipe, pieces: count } = line;
    const title =
      this.#data.recipes.find((each) => each.id === recipe)?.title ?? say("page-week-gone-recipe");
    const name = say("page-week-line", { count, title });
    const said = saidOf(line, {}).said;
    /** @type {HTMLDetailsElement} */
    const details = h(
      "details",
      {
        class: "shelf-item",
        open: this.#open.has(id),
        ontoggle: () => this.#open[details.open ? "add" : "delete"](id),
      },
      h(
        "summary",
        { class: "row" },
        h("span", { class: "row-words" }, h("b", { class: "row-title" }, name), this.#stands(line)),
      ),
      this.#data.isMaker
        ? h(
            "div",
            { class: "shelf-does" },
            this.#does(say("page-week-change"), name, () => this.#change(line, title)),
            this.#does(say("page-week-met"), name, () => this.#end(id, said, "met", say("page-week-is-met"))),
            this.#does(say("page-week-drop"), name, () =>
              this.#end(id, said, "dropped", say("page-week-is-dropped")),
            ),
          )
        : null,
    );
    return h("li", {}, details);
  }

  /** @param {string} id @param {WantSaid["said"]} said @param {"met" | "dropped"} state @param {string} says */
  #end(id, said, state, says) {
    const known = this.#looked?.wants.find((line) => line.id === id);
    if (known) this.#versions.set(id, known.version + 1);
    this.#turn(id, said, state, says);
  }

  /** Where a line's pieces come from. @param {OrderWant} line */
  #stands({ id, by, pieces: count }) {
    const { now: at } = /** @type {WeekLooked} */ (this.#looked);
    if (by <= this.#data.now()) return h("span", { class: "small past" }, say("page-week-past"));
    const planned = at.followed?.lines.find(({ want }) => want === id);
    /** @type {OrderLine} */
    const line = { want: id, coming: 0, made: 0, short: 0, ...planned, there: at.there[id] ?? 0 };
    const told = [
      line.there ? say("page-week-there", { count: line.there }) : "",
      line.coming ? say("page-week-coming", { count: line.coming }) : "",
      line.made ? say("page-week-made", { count: line.made }) : "",
      line.short ? say("page-week-short", { count: line.short }) : "",
      at.followed?.later.includes(id) && line.there < count ? say("page-week-later") : "",
    ];
    return h("span", { class: line.short ? "small past" : "soft small" }, told.filter(Boolean).join(", "));
  }

  /** @param {string} label @param {string} line @param {() => unknown} press */
  #does(label, line, press) {
    const name = line ? say("page-week-of", { does: label, line }) : null;
    return h("button", { type: "button", class: "quiet", "aria-label": name, onclick: press }, label);
  }
}

export const registerWeekScreen = () => define("week-screen", WeekScreen);
