// One batch in a list, leading to its record.

import { h } from "./dom.js";
import { mark } from "./marks.js";
import { day } from "./words.js";
import { say } from "../words.js";
/** @import { BatchVerdict } from "../../bench/shapes/page" */

/**
 * @param {{id: string, title: string, finished_at: number | null, release?: BatchVerdict | null}} batch
 * @param {...(string | null)} more what is said of it before when it was finished
 */
export function batchRow({ id, title, finished_at, release = null }, ...more) {
  const says = [
    ...more,
    finished_at ? say("page-common-finished", { at: day(finished_at) }) : say("page-common-unfinished"),
    release && say("page-common-release", { verdict: release }),
  ].filter(Boolean);
  return h(
    "li",
    {},
    h(
      "a",
      { class: "row", href: `#/record/${id}` },
      h(
        "span",
        { class: "row-words" },
        h("b", { class: "row-title" }, title),
        h("span", { class: "soft small" }, says.join(", ")),
      ),
      mark("next"),
    ),
  );
}
