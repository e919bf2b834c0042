// What an empty studio shows: what this is, what it will ask for, and three ways to begin.

import { locale, say, units } from "../words.js";
import { h } from "./dom.js";

/** Where ounces and °F are what people think in, as common practice has it. */
const OUNCES = /-US$/;

export function firstVisit() {
  /** @param {string} href @param {string} name @param {string} title @param {string} says */
  const way = (href, name, title, says) =>
    h("a", { class: `${name} way-in`, href }, h("b", {}, title), h("span", {}, says));
  return h(
    "section",
    { class: "first", "aria-label": say("page-begin-title") },
    h("p", { class: "first-what" }, say("page-begin-what")),
    h(
      "div",
      { class: "stack" },
      way("#/practice", "copper", say("page-begin-sample"), say("page-begin-sample-says")),
      way("#/recipe/new", "outlined", say("page-begin-write"), say("page-begin-write-says")),
      way("#/bring", "outlined", say("page-begin-bring-one"), say("page-begin-bring-says")),
    ),
    h("p", { class: "soft" }, say("page-begin-asks"), " ", h("a", { href: "#/kit" }, say("page-begin-kit"))),
    OUNCES.test(locale()) && units().mass === "g"
      ? h(
          "p",
          { class: "soft" },
          say("page-begin-grams"),
          " ",
          h("a", { href: "#/studio" }, say("page-begin-ounces")),
        )
      : "",
  );
}
