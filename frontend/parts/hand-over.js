// A file for the maker to keep: downloaded, or, where a download goes nowhere, shared.
//
//   handOver("record.json", text)                      a file made here
//   fileLink("/api/v1/export", "bowlside.json", "Save everything")   a file of the server's
//
// A page that was put on an iPhone's home screen has no place to download to; its share sheet has "Save to Files".

import { isApple, isInstalled } from "../platform.js";
import { last } from "../bench/lists.js";
import { h } from "./dom.js";

const KEPT_MS = 60_000;
/** @type {{[ending: string]: string}} */
const TYPES = { json: "application/json", csv: "text/csv" };

const sharesFiles = () => isApple && isInstalled && Boolean(navigator.canShare);

/** @param {string} name @param {string} text */
export function handOver(name, text) {
  give(name, new Blob([text], { type: TYPES[last(name.split("."))] }));
}

/** @param {string} href @param {string} name @param {string} label */
export function fileLink(href, name, label) {
  /** @param {Event} event */
  const onclick = async (event) => {
    if (!sharesFiles()) return;
    event.preventDefault();
    const answer = await fetch(href).catch(() => null);
    if (answer?.ok) give(name, await answer.blob());
  };
  return h("a", { class: "button quiet", href, download: name, onclick }, label);
}

/** @param {string} name @param {Blob} blob */
function give(name, blob) {
  const file = sharesFiles() && new File([blob], name, { type: blob.type });
  if (file && navigator.canShare({ files: [file] })) {
    navigator.share({ files: [file] }).catch(() => {}); // put away again: the maker knows
    return;
  }
  const url = URL.createObjectURL(blob);
  h("a", { href: url, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(url), KEPT_MS);
}
