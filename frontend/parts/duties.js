// What is due before something is sold: which laws are known here, each duty, and how it stands. Folded, said once.
//
//   const duties = new DutiesPart((said) => tell(this, "duty-said", said));
//   duties.write(stands(recipe, id, marks ?? []), { id, isSeen, isMaker, isOnline, today });
//   duties.node

import { h, setChildren } from "./dom.js";
import { dayWords } from "./stock.js";
import { those } from "../bench/lists.js";
import { say, sayAll } from "../words.js";
/** @import { DutySaid, DutyStands, DutyState, LawStands, ProductStands } from "../../bench/shapes/page" */

/** @typedef {{id: string, isSeen: boolean, isMaker: boolean, isOnline: boolean, today: string}} DutiesAbout */

/** @type {readonly DutyState[]} */
const STATES = ["open", "seen_to", "not_mine"];

export class DutiesPart {
  #said;
  #drawn = "";
  #summary = h("summary", {});
  #body = h("div", { class: "stack" });
  node = h("details", { class: "duties no-print" }, this.#summary, this.#body);

  /** @param {(said: DutySaid) => void} said */
  constructor(said) {
    this.#said = said;
  }

  /** @param {ProductStands} told @param {DutiesAbout} about */
  write(told, about) {
    const drawn = JSON.stringify([told, about]);
    if (drawn === this.#drawn) return;
    this.#drawn = drawn;
    const { duties, laws, open } = told;
    this.#summary.textContent = titleOf(told, open);
    setChildren(
      this.#body,
      those([
        about.isSeen ? null : h("p", { class: "soft" }, say("page-duties-not-seen")),
        about.isOnline || !about.isMaker ? null : h("p", { class: "soft" }, say("page-duties-last-seen")),
        h("p", {}, say("product-law-rules")),
        laws.length ? h("ul", { class: "plain" }, laws.map(sourced)) : null,
        duties.length
          ? h(
              "ul",
              { class: "plain" },
              duties.map((duty) => this.#row(duty, about)),
            )
          : null,
      ]),
    );
  }

  /** @param {DutyStands} duty @param {DutiesAbout} about */
  #row(duty, { id, isMaker, isOnline, today }) {
    const { state, day, note, more } = duty;
    const row = sourced(duty);
    row.dataset.duty = duty.id;
    row.dataset.state = state;
    if (more) row.append(h("span", { class: "soft small" }, more));
    if (!isMaker || !isOnline) {
      const when = day ? dayWords(day) : "";
      row.append(h("b", {}, [say("page-duties-state", { state }), when, note].filter(Boolean).join(" · ")));
      return row;
    }
    const stateInput = h(
      "select",
      { "aria-label": say("page-duties-how") },
      STATES.map((each) =>
        h("option", { value: each, selected: each === state }, say("page-duties-state", { state: each })),
      ),
    );
    const dayInput = h("input", { type: "date", value: day ?? "", "aria-label": say("page-duties-day") });
    const noteInput = h("input", {
      value: note,
      maxlength: 400,
      placeholder: say("page-duties-note"),
      "aria-label": say("page-duties-note"),
    });
    const tell = () => {
      const now = STATES.find((each) => each === stateInput.value) ?? "open";
      if (now !== "open" && !dayInput.value) dayInput.value = today;
      this.#said({
        about: duty.of === "studio" ? null : id,
        duty: duty.id,
        state: now,
        day: dayInput.value || null,
        note: noteInput.value.trim(),
      });
    };
    for (const input of [stateInput, dayInput, noteInput]) input.addEventListener("change", tell);
    row.append(h("div", { class: "duty-stands" }, stateInput, dayInput, noteInput));
    return row;
  }
}

/** @param {ProductStands} told @param {number} open */
function titleOf({ use, sold_in: markets, duties }, open) {
  if (!use || !markets) return say("page-duties-unsaid");
  if (!markets.length) return say("page-duties-not-sold");
  return say("page-duties-open", { open, count: duties.length });
}

/** @param {LawStands | DutyStands} told */
function sourced({ says, markets, source, dated }) {
  const where = sayAll(markets.map((market) => say("product-market", { market })));
  const when = dated === "unknown" ? say("page-duties-no-date") : "";
  return h(
    "li",
    {},
    h("span", {}, says),
    h("span", { class: "soft small" }, [where, source, when].filter(Boolean).join(" · ")),
  );
}
