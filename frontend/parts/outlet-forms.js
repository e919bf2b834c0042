// Outlets and complaints as the server alone has them: names and addresses, the erasing of them, what was said.
//
//   await askOutlet(outlet)     // { name, contact }, or null
//   await askErase(name)        // true: erase it
//   complaintRows(complaints)   // its nodes
//   whereRows(told)             // where a batch’s pieces are

import { h } from "./dom.js";
import { askForm, field, refuse, submit } from "./form.js";
import { tellPlain } from "./sheets.js";
import { day } from "./words.js";
import { say } from "../words.js";
/** @import { AtOutlet, Complaint, Outlet, PiecesWhole } from "../../bench/shapes/page" */

/** @param {Outlet | null} outlet @returns {Promise<{name: string, contact: string | null} | null>} */
export function askOutlet(outlet) {
  const name = h("input", { autocomplete: "off", value: outlet?.name ?? "", maxlength: 200 });
  const contact = h("textarea", { rows: 2, maxlength: 400 }, outlet?.contact ?? "");
  const rows = [
    field(say("page-pieces-name"), name),
    field(say("page-pieces-contact"), contact),
    h("p", { class: "soft small" }, say("page-pieces-outlet-says")),
  ];
  return askForm(say("page-pieces-outlet"), submit(say("page-common-save")), rows, () => {
    if (!name.value.trim()) throw refuse(say("page-pieces-name-needed"));
    return { name: name.value.trim(), contact: contact.value.trim() || null };
  });
}

/** @param {string} name */
export const askErase = (name) =>
  tellPlain({
    title: say("page-pieces-erase-title", { name }),
    lines: [say("page-pieces-erase-stays"), say("page-pieces-erase-copies"), say("page-pieces-erase-phones")],
    answer: say("page-pieces-erase"),
    leave: say("page-common-back"),
  });

/** @param {readonly Complaint[]} complaints @returns {Node[]} */
export function complaintRows(complaints) {
  const rows = complaints.map(({ id, at, sort, text }) =>
    h(
      "li",
      {},
      h("p", {}, h("b", {}, say("page-pieces-sort", { sort })), ` ${day(at)}: ${text}`),
      h("a", { class: "button quiet", href: `#/recall/complaint.${id}` }, say("page-pieces-leads-to")),
    ),
  );
  return [
    h("h2", { class: "section-name" }, say("page-pieces-complaints")),
    rows.length
      ? h("ul", { class: "ruled" }, rows)
      : h("p", { class: "soft" }, say("page-pieces-no-complaints")),
  ];
}

/** What an outlet is called. @param {AtOutlet} at */
export const outletName = ({ name, outlet }) =>
  name ?? (outlet === null ? say("page-pieces-nobody") : say("page-pieces-erased"));

/** @param {PiecesWhole} told */
export function whereRows({ at, bins, batch }) {
  const rows = [
    ...at.map((each) => say("page-pieces-at", { name: outletName(each), count: each.there })),
    ...bins.map(({ at: when, pieces, why }) =>
      say("page-pieces-binned", { day: day(when), count: pieces, why }),
    ),
    ...(batch?.kept ? [say("page-pieces-kept", { count: batch.kept })] : []),
  ];
  return h(
    "ul",
    { class: "plain small" },
    (rows.length ? rows : [say("page-pieces-nowhere")]).map((text) => h("li", {}, text)),
  );
}
