// The batch record: what was asked, what was weighed, when each thing was done, how long each
// wait really was, what was corrected, skipped and noted. Made to be read, printed and kept.
//
//   screen.data = { run }      // the run with its sheet, state and entries

import { grams } from "../bench/index.js";
import { record } from "../bench/record.js";
import { define, h } from "../parts/dom.js";
import { letterMark } from "../parts/hatch.js";
import { pageHead } from "../parts/page-head.js";
import { about, clock, day, duration, mass, pieces } from "../parts/words.js";

const CORRECTIONS = {
  taken_out: ({ mg }) => `${mass(mg)} taken out again`,
  left: () => "left as it was",
  left_out: () => "left out",
  carried: ({ num, den }) => `all targets carried to ${(num / den).toFixed(3)} times the sheet`,
};

class RecordScreen extends HTMLElement {
  #seen = null;

  set data({ run }) {
    if (this.#seen === run.state) return;
    this.#seen = run.state;
    const { sheet } = run;
    const told = record(sheet, run.state, run.entries);
    this.replaceChildren(
      h(
        "div",
        { class: "sheet record" },
        pageHead("Batch record", ""),
        h("h2", {}, sheet.recipe.title),
        facts(told),
        sheet.components.map((component) => componentPart(component, told)),
        listPart("Corrections", told.corrections.map((each) => [clock(each.at), correction(each, sheet)])),
        listPart("Skipped", told.steps.filter((step) => step.status === "skipped").map((step) => [`${step.letter}, ${step.title}`, step.why || "no reason given"])),
        listPart("Notes", told.notes.map((note) => [clock(note.at), note.text])),
        listPart("Not understood", told.unread.length ? [["", `${told.unread.length} of a kind this page does not know; kept with the run.`]] : []),
        h("div", { class: "stack no-print" }, told.finished_at ? null : h("a", { class: "button copper", href: `#/bench/${run.id}` }, "Back to the bench"), h("button", { type: "button", class: "quiet knuckle", onclick: () => print() }, "Print")),
      ),
    );
  }
}

function facts(told) {
  const made = told.yield;
  const off = [made.partial ? `${made.partial} partial` : "", made.spoiled ? `${made.spoiled} spoiled` : ""].filter(Boolean);
  const rows = [
    ["Asked", pieces(made.planned, told.piece)],
    made.good === null ? null : ["Made", [pieces(made.good, told.piece), ...off].join(", ")],
    ["Weighed in", `${about(made.actual_mg)}, planned ${about(made.planned_mg)}`],
    ["Began", told.started_at ? day(told.started_at) : "not yet"],
    ["Finished", told.finished_at ? day(told.finished_at) : "still open"],
    told.finished_at ? ["Took", duration(told.finished_at - told.started_at)] : null,
    ["Recipe", `version ${told.recipe.version}`],
  ];
  return h("dl", { class: "facts" }, rows.filter(Boolean).map(([name, value]) => h("div", {}, h("dt", {}, name), h("dd", {}, value))));
}

/** Steps that have an instant, each with what its kind has to tell. */
function componentPart(component, told) {
  const mine = (each) => each.component === component.id;
  const lines = told.lines.filter(mine);
  const done = told.steps.filter((step) => mine(step) && step.at !== null && step.status === "done").sort((a, b) => a.at - b.at);
  if (!lines.length && !done.length) return null;
  const rounds = component.rounds.length;
  return h(
    "section",
    { class: "plate-part", "aria-label": component.name },
    h("h2", {}, letterMark(component.letter), h("span", {}, component.name), h("span", { class: "figures plate-count" }, `\u00d7 ${component.count}`)),
    lines.length
      ? h(
          "table",
          { class: "amounts" },
          h("caption", { class: "unseen" }, `Weights of ${component.name}`),
          h("thead", {}, h("tr", {}, h("td", {}), ["asked", "weighed", "off"].map((name) => h("th", { scope: "col" }, name)))),
          h("tbody", {}, lines.map((line) => lineRow(line, rounds))),
        )
      : null,
    h("ol", { class: "times small" }, done.map((step) => h("li", {}, h("time", {}, clock(step.at)), h("span", {}, [rounds > 1 ? `round ${step.round}: ` : "", step.title, detail(step, told)].join(""))))),
  );
}

function detail(step, told) {
  const of = (list) => list.find((each) => each.step === step.step);
  const wait = of(told.waits);
  const window = of(told.windows);
  const burst = of(told.bursts);
  const portions = of(told.portions);
  const look = of(told.looks);
  const count = of(told.counts);
  const said = [
    step.way,
    wait && wait.real_ms !== null ? `after ${duration(wait.real_ms)}${wait.early ? ", earlier than written" : wait.late ? ", later than written" : ""}` : "",
    window?.late ? `${duration(window.real_ms)} into a window of ${duration(window.latest_ms)}` : "",
    burst ? `${burst.used} ${burst.used === 1 ? "burst" : "bursts"}, ${duration(burst.heated_ms)} in all` : "",
    portions ? portions.portions.map(({ name, mg }) => `${name} ${mass(mg)}`).join(", ") : "",
    look?.tries ? `after ${look.tries} ${look.tries === 1 ? "try" : "tries"}` : "",
    count ? [`${count.good} good`, count.partial ? `${count.partial} partial` : "", count.spoiled ? `${count.spoiled} spoiled` : ""].filter(Boolean).join(", ") : "",
  ].filter(Boolean);
  return said.length ? `: ${said.join("; ")}` : "";
}

function lineRow(line, rounds) {
  const name = [line.name, rounds > 1 ? `round ${line.round}` : "", line.instead_of ? `instead of ${line.instead_of}` : ""].filter(Boolean).join(", ");
  const shown = (mg) => grams(mg, line.division_mg ?? 1);
  if (line.asked_mg === null) {
    const amount = line.spoons || (line.count === null ? "to texture" : `${line.count} ${line.unit}`);
    return h("tr", {}, h("th", { scope: "row" }, name), h("td", {}, amount), h("td", {}, WORDS[line.status] ?? ""), h("td", {}));
  }
  const off = line.deviation_mg;
  const isIn = line.actual_mg > 0;
  const isOut = isIn && Math.abs(off) > line.tolerance_mg;
  return h("tr", { class: isOut ? "out" : null }, h("th", { scope: "row" }, name), h("td", {}, shown(line.asked_mg)), h("td", {}, isIn ? shown(line.actual_mg) : (WORDS[line.status] ?? "\u2013")), h("td", {}, isIn && off !== 0 ? `${off > 0 ? "+" : "\u2212"}${shown(Math.abs(off))}` : ""));
}

const WORDS = { in: "in", left_out: "left out", open: "\u2013" };

function correction(each, sheet) {
  const line = sheet.lines.find((candidate) => candidate.id === each.line);
  const component = sheet.components.find((candidate) => candidate.id === each.component);
  return [line?.name ?? component?.name ?? "", CORRECTIONS[each.kind](each)].filter(Boolean).join(": ");
}

function listPart(title, rows) {
  if (rows.length === 0) return null;
  return h("section", { "aria-label": title }, h("h2", { class: "section-name" }, title), h("ul", { class: "plain" }, rows.map(([name, text]) => h("li", {}, name ? h("b", {}, name) : null, name && text ? ": " : "", text))));
}

export const registerRecordScreen = () => define("record-screen", RecordScreen);
