// A recipe on paper: as it was written, or as the sheet at a size; and the ways to hand it on.
//
//   screen.data = { recipe, kit, asked, weigh }     // asked: pieces, a size, or null for the card

import { saysOf } from "../bench/errors.js";
import { chooseSize, makeSheet } from "../bench/sheet/index.js";
import { define, h, sameData } from "../parts/dom.js";
import { handOver } from "../parts/hand-over.js";
import { pageHead } from "../parts/page-head.js";
import { paperLeaf } from "../parts/paper-leaf.js";
import { planOfRecipe, planOfSheet } from "../parts/paper-plan.js";
import { say } from "../words.js";
/** @import { Kit, Size, Weighing } from "../../bench/shapes/page" */
/** @import { RecipeRow } from "../../types/keep" */

// Another device cannot open what only this one calls by that name.
const ONLY_HERE = /^(localhost|127\.|\[::1\])/;

/** @typedef {Partial<Size> & {pieces: number}} AskedSize a size as an address says it */

export class CardScreen extends HTMLElement {
  /** @type {unknown} */
  #seen = null;

  /** @param {{recipe: RecipeRow, kit: Kit | null, asked: AskedSize | null, weigh: Weighing}} data */
  set data({ recipe, kit, asked, weigh }) {
    const seen = [recipe.id, recipe.version, kit, asked, weigh];
    if (sameData(seen, this.#seen)) return;
    this.#seen = seen;
    this.replaceChildren(
      h("div", { class: "sheet no-print" }, pageHead(say("page-paper-title"), ""), this.#ways(recipe, asked)),
      this.#leaf(recipe, kit, asked, weigh),
    );
  }

  /** @param {RecipeRow} recipe @param {Kit | null} kit @param {AskedSize | null} asked @param {Weighing} weigh */
  #leaf(recipe, kit, asked, weigh) {
    if (asked === null) return paperLeaf(planOfRecipe(recipe), code(recipe));
    if (!kit)
      return h(
        "p",
        { class: "sheet" },
        say("page-paper-needs-kit"),
        " ",
        h("a", { href: "#/kit" }, say("page-paper-set-kit")),
      );
    try {
      const { size } = chooseSize(recipe.measured, kit, { by: "pieces", weigh, ...asked });
      return paperLeaf(planOfSheet(makeSheet(recipe.measured, recipe, size, kit)), code(recipe));
    } catch (error) {
      const says = saysOf(error);
      if (!says) throw error;
      return h("p", { class: "sheet trouble", role: "alert" }, says);
    }
  }

  /** @param {RecipeRow} recipe @param {AskedSize | null} asked */
  #ways({ id, title, document: written, address = id }, asked) {
    const count = h("input", {
      type: "number",
      min: 1,
      max: 1000,
      inputmode: "numeric",
      value: asked?.pieces ?? written.written_for,
      "aria-label": say("page-paper-pieces"),
    });
    const save = () => {
      const name = title.toLowerCase().replace(/[^a-z0-9]+/g, "-");
      handOver(`${name.slice(0, 60) || "recipe"}.json`, JSON.stringify(written, null, 2));
    };
    return h(
      "div",
      { class: "stack" },
      h("button", { type: "button", class: "copper", onclick: () => print() }, say("page-common-print")),
      h(
        "form",
        {
          class: "paper-size",
          onsubmit: (event) => {
            event.preventDefault();
            location.hash = `#/card/${address}/${Number(count.value)}`;
          },
        },
        count,
        h("button", { type: "submit", class: "outlined" }, say("page-paper-sheet-for")),
      ),
      h(
        "div",
        { class: "paper-ways" },
        asked === null
          ? null
          : h("a", { class: "button quiet", href: `#/card/${address}` }, say("page-paper-as-written")),
        h("button", { type: "button", class: "quiet", onclick: save }, say("page-paper-save-file")),
        h("a", { class: "button quiet", href: `#/versions/${id}` }, say("page-paper-versions")),
        h("a", { class: "button quiet", href: `#/size/${address}` }, say("page-paper-make")),
      ),
      ONLY_HERE.test(location.hostname)
        ? h("p", { class: "soft small" }, say("page-paper-only-here"))
        : handOn(address, title),
    );
  }
}

/**
 * The card's address, for another maker of this studio: by the phone's own way to share, else copied.
 * @param {string} address @param {string} title
 */
function handOn(address, title) {
  const url = `${location.origin}${location.pathname}#/card/${address}`;
  const said = h("p", { class: "soft small", role: "status" });
  const canShare = "share" in navigator;
  const give = async () => {
    try {
      if (canShare) await navigator.share({ title, url });
      else await navigator.clipboard.writeText(url);
      if (!canShare) said.textContent = say("page-paper-copied");
    } catch (error) {
      // Neither is allowed here: shown, to be copied by hand.
      if (!(error instanceof Error) || error.name !== "AbortError") said.textContent = url;
    }
  };
  return h(
    "div",
    { class: "stack" },
    h(
      "button",
      { type: "button", class: "quiet knuckle", onclick: give },
      say(canShare ? "page-paper-share-link" : "page-paper-copy-link"),
    ),
    said,
  );
}

/** The code of this recipe's address; not there without the server, which draws it. @param {{id: string}} recipe */
function code({ id }) {
  if (ONLY_HERE.test(location.hostname)) return null;
  /** @type {HTMLElement} */
  const figure = h(
    "figure",
    { class: "paper-code" },
    h("img", {
      src: `/api/v1/recipes/${id}/qr.svg`,
      alt: say("page-paper-code"),
      width: 96,
      height: 96,
      onerror: () => figure.remove(),
    }),
    h("figcaption", {}, location.host),
  );
  return figure;
}

export const registerCardScreen = () => define("card-screen", CardScreen);
