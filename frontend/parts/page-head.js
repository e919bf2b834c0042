// The head of a quiet page: where one is, and the way to the other pages.
//
//   pageHead("Recipes", "recipes")   // title, and which of the pages this is ("" for none)
//   pageHead("Who did what", "", ["#/studio", "Settings"])   // of none: where Back leads, else to the recipes

import { h } from "./dom.js";
import { bowlMark, mark } from "./marks.js";
import { say } from "../words.js";

const PAGES = [
  ["recipes", "#/"],
  ["week", "#/week"],
  ["shelf", "#/shelf"],
  ["pieces", "#/pieces"],
  ["kit", "#/kit"],
  ["studio", "#/studio"],
];

/** @param {string} title @param {string} here */
export function pageHead(title, here, [back, backTo] = ["#/", say("page-title-recipes")]) {
  const links = PAGES.map(([name, href]) =>
    h(
      "a",
      { href, class: "button quiet", "aria-current": name === here ? "page" : null },
      say(`page-title-${name}`),
    ),
  );
  return h(
    "header",
    { class: "page-head" },
    here ? null : h("a", { class: "button back", href: back, "aria-label": backTo }, mark("back")),
    here === "recipes" ? bowlMark() : null,
    h("h1", {}, title),
    here ? h("nav", { "aria-label": say("page-head-pages") }, links) : null,
  );
}
