// Draws every prompt of a recipe's making in one page and says what of it a maker could not see.
//
//   const moments = record(sheet);          // [{ name, run, bench }], a run from its first prompt to its last
//   draw(moments[0]);                       // stands on the page
//   outOfSight();                           // ["answer “It reads 55 g” is cut at the foot", …]
//
// The way through is the strong answer; beside it stands what goes wrong: too much, too little, not yet, too far.

import { fold, now } from "/bench/index.js";
import { registerAnswerRow } from "/parts/answer-row.js";
import { registerBowlSection } from "/parts/bowl-section.js";
import { installHatching } from "/parts/hatch.js";
import { openPad } from "/parts/number-pad.js";
import { registerPlateRow } from "/parts/plate-rows.js";
import { registerWaitStrip } from "/parts/wait-strip.js";
import { registerBenchScreen } from "/screens/bench.js";
import { say } from "/words.js";

const BEGAN = 1_700_000_000_000;
const MOST = 900;
const LEAD = "Why this now: it dries for 6 h, which sets your finish.";

let screen = null;
let signed = false;
let drawn = 0;

export function open() {
  for (const register of [
    registerAnswerRow,
    registerBowlSection,
    registerPlateRow,
    registerWaitStrip,
    registerBenchScreen,
  ])
    register();
  installHatching();
  screen = document.createElement("bench-screen");
  document.getElementById("page").replaceChildren(screen);
}

const keyOf = ({ step, kind, weigh, title }) => `${step} ${kind} ${weigh?.line ?? ""} ${title}`;

export function record(sheet) {
  const moments = new Map();
  const entries = [];
  let at = BEGAN;
  const entry = ({ kind, body }) => {
    at += 1000;
    const count = String(entries.length).padStart(12, "0");
    return { id: `018f0000-0000-7000-8000-${count}`, run: "walk", device: "one", at, kind, body };
  };
  /** Keep each prompt that stands first once, and the others that could be turned to. */
  const see = (state, said) => {
    for (const prompt of said.prompts) {
      const key = keyOf(prompt);
      if (moments.has(key)) continue;
      const bench = { ...said, prompts: [prompt, ...said.prompts.filter((other) => other !== prompt)] };
      moments.set(key, { name: `${prompt.letter} ${prompt.kind}: ${prompt.title}`, sheet, state, bench });
    }
  };
  const aside = (answer) => {
    const state = fold(sheet, [...entries, entry(answer)]);
    const said = now(sheet, state, at);
    see(state, { ...said, prompts: said.prompts.slice(0, 1) });
  };
  for (let turn = 0; turn < MOST; turn += 1) {
    const state = fold(sheet, entries);
    const said = now(sheet, state, at);
    see(state, said);
    if (said.finished) break;
    const prompt = said.prompts.find(({ answers }) => answers.some((each) => each.strong));
    if (!prompt) {
      at += 5 * 60_000;
      continue;
    }
    const read = prompt.answers.find((each) => each.input === "reading" && each.kind === "weighed");
    if (read && prompt.weigh)
      for (const share of [1.3, 0.6])
        aside({ ...read, body: { ...read.body, mg: Math.round(prompt.weigh.add_mg * share) } });
    for (const each of prompt.answers)
      if (!each.strong && !each.input && ["looked", "counted"].includes(each.kind)) aside(each);
    entries.push(entry(prompt.answers.find((each) => each.strong)));
  }
  return [...moments.values()];
}

/** The countdowns of a moment as the studio gives them, and those of another batch beside them. */
function waitsOf({ bench }, others) {
  const items = (what, list) => list.map((item) => ({ ...item, what, run: "walk", run_name: "261129-K1" }));
  const own = [
    ...items("wait", bench.waits),
    ...items("window", bench.windows),
    ...items("guide", bench.guides),
  ];
  return [...own, ...(others ?? []).map((wait) => ({ ...wait, run: "other", run_name: "261128-LTHQ2" }))];
}

/** The longest things that can be undone, and done again, on a sheet. */
function deedsOf(sheet) {
  const longest = (list, field) =>
    list.reduce((one, other) => (other[field].length > one[field].length ? other : one));
  const { id: line } = longest(sheet.lines, "name");
  const { id: step } = longest(sheet.steps, "title");
  return [
    { id: "poured", kind: "weighed", body: { line, mg: 1_101_000 } },
    { id: "skipped", kind: "skipped", body: { step } },
    { id: "left", kind: "left", body: { line } },
    { id: "heated", kind: "heated", body: { step, ms: 30_000 } },
  ];
}

export function draw(moment, others = [], lead = { step: null, says: LEAD }, isUndone = false) {
  // At every other prompt it is said that there is no sound, and else how the server is reached.
  const isEndedByTouch = (signed = !signed);
  const deeds = deedsOf(moment.sheet);
  const [deed] = deeds;
  const undo = deeds[(drawn += 1) % deeds.length];
  const { sheet, bench } = moment;
  moment.numbered ??= { ...moment.state, number: "261129-NLHV1" }; // the same state each time: nothing happened in between
  screen.data = {
    run: { id: moment.name, sheet, state: moment.numbered },
    bench,
    waits: waitsOf(moment, others).map((wait) => ({
      ...wait,
      run: wait.run === "walk" ? moment.name : wait.run,
    })),
    signs: [{ says: say("page-app-mute"), isEndedByTouch }],
    now: () => bench.at,
    link: { state: "offline", unsent: 12, refused: [], shut: null },
    beside: () => [],
    lead: () => lead,
    isGiven: () => false,
    undoing: { undo, redo: isUndone ? { undo: { id: "back" }, deed } : null },
  };
}

/** What of a prompt must be seen: [what it is, its element]. */
function wanted() {
  const all = (selector) =>
    [...screen.querySelectorAll(selector)].filter(
      (node) => node.checkVisibility() && node.textContent.trim(),
    );
  return [
    ...all(".bench-words h1, .says, .more, .why, .more-fold summary").map((node) => ["instruction", node]),
    ...all(".reach .number, .reach .add, .reach .number-caption, .reach-side > :last-child").map((node) => [
      "number",
      node,
    ]),
    ...all(".bench-words .cautions li").map((node) => ["caution", node]),
    ...all("answer-row button").map((node) => ["answer", node]),
    ...all(".bench-foot .quiet").map((node) => ["way back", node]),
    ...all(".strip > li:first-child").map((node) => ["countdown", node]),
    ...all(".head-sign, .head-link, .head-number").map((node) => ["sign", node]),
  ];
}

/** The line that says what to zero stands first of the words, never in the fold. */
function zeroedLate() {
  const says = screen.querySelector(".says");
  const fold = screen.querySelector(".more-fold");
  const text = says.textContent.replaceAll("\u00a0", " ");
  const late = text.indexOf("then zero.") > text.indexOf(". ", text.indexOf(". ") + 1);
  return late || fold.textContent.includes("then zero.")
    ? [["instruction", text, "does not zero first"]]
    : [];
}

/** A sign may stand at the end of a line, and its number on the next. */
function parted() {
  return wanted()
    .filter(([, node]) => /[×+\u2212] \d/.test(node.textContent))
    .map(([what, node]) => [what, node.textContent.trim().slice(0, 40), "may part a number from its sign"]);
}

/** A line that a maker can do without for now may lie below the foot, but never stand there cut through. */
function cutThrough() {
  const words = screen.querySelector(".bench-words");
  const foot = words.getBoundingClientRect().bottom;
  const isFading = words.hasAttribute("data-below");
  return [...words.querySelectorAll(".lead, .beside, .gather")]
    .filter((node) => node.checkVisibility() && !isFading && node.getBoundingClientRect().bottom > foot + 2)
    .map((node) => ["beside", node.textContent.trim().slice(0, 40), "is cut at the foot"]);
}

/** What must be seen of the words does not stand where they fade. */
function faded() {
  const words = screen.querySelector(".bench-words");
  if (!words.hasAttribute("data-below")) return [];
  const stop = /rgb\(0, 0, 0\) (?:calc\(100% - ([\d.]+)px\)|([\d.]+)px)/.exec(
    getComputedStyle(words).maskImage,
  );
  if (!stop) return [["page", "", "has no fade that can be measured"]];
  const from = stop[2] ? Number(stop[2]) : words.clientHeight - Number(stop[1]);
  const top = words.getBoundingClientRect().top;
  return wanted()
    .filter(([, node]) => words.contains(node) && node.getBoundingClientRect().bottom > top + from + 1)
    .map(([what, node]) => [what, node.textContent.trim().slice(0, 40), "fades"]);
}

/**
 * Words that stand in a place of so many lines, or of one, and go on past it. What folds to one line opens, and a
 * recipe's title stands behind its batch's number.
 */
function clamped() {
  const isShut = (way) => ["hidden", "clip"].includes(way);
  const isPast = (node) => {
    const { overflowX, overflowY, webkitLineClamp } = getComputedStyle(node);
    const isWider = isShut(overflowX) && node.scrollWidth > node.clientWidth + 1;
    const isLower = isShut(overflowY) && node.scrollHeight > node.clientHeight + 3;
    return isWider || isLower || (webkitLineClamp !== "none" && node.scrollHeight > node.clientHeight + 1);
  };
  return [...screen.querySelectorAll(".bench *:not(svg *, .unseen, summary *, .head-name)")]
    .filter((node) => node.checkVisibility() && node.textContent.trim() && isPast(node))
    .map((node) => [
      "cut",
      node.textContent.trim().slice(0, 40),
      `goes on past its place (${node.className})`,
    ]);
}

/** What a button does is said to its end, and no name in it ends in dots. */
function dotted() {
  return [...screen.querySelectorAll(".bench button")]
    .filter((node) => node.checkVisibility() && node.textContent.includes("\u2026"))
    .map((node) => ["cut", node.textContent.trim(), "ends in dots"]);
}

/** Why an element is not wholly seen: "" when it is. */
function hidden(node) {
  const box = node.getBoundingClientRect();
  const kept = (side) =>
    parseFloat(getComputedStyle(document.documentElement).getPropertyValue(`--safe-${side}`)) || 0;
  let seen = { left: 0, top: kept("top"), right: innerWidth, bottom: innerHeight - kept("bottom") };
  for (let over = node.parentElement; over; over = over.parentElement) {
    const style = getComputedStyle(over);
    if (style.overflowX === "visible" && style.overflowY === "visible") continue;
    const edge = over.getBoundingClientRect();
    seen = {
      left: Math.max(seen.left, edge.left),
      top: Math.max(seen.top, edge.top),
      right: Math.min(seen.right, edge.right),
      bottom: Math.min(seen.bottom, edge.bottom),
    };
  }
  if (box.width < 2 || box.height < 2) return "is nothing";
  if (box.bottom <= seen.top + 1 || box.top >= seen.bottom - 1) return "is hidden";
  const off = {
    left: seen.left - box.left,
    top: seen.top - box.top,
    right: box.right - seen.right,
    foot: box.bottom - seen.bottom,
  };
  for (const [side, by] of Object.entries(off))
    if (by > 1) return `is cut at the ${side} by ${Math.round(by)}`;
  if (node.scrollWidth > node.clientWidth + 1 && node.clientWidth) return "is wider than its place";
  if (
    node.scrollHeight > node.clientHeight + 3 &&
    node.clientHeight &&
    getComputedStyle(node).overflow !== "visible"
  )
    return "is cut short";
  const points = [
    [0.5, 0.5],
    [0.1, 0.15],
    [0.9, 0.85],
  ].map(([x, y]) => [box.left + box.width * x, box.top + box.height * y]);
  for (const [x, y] of points) {
    const there = document.elementFromPoint(x, y);
    if (there && there !== node && !node.contains(there) && !there.contains(node))
      return `is covered by ${there.className || there.localName}`;
  }
  return "";
}

function told(pairs) {
  return pairs
    .map(([what, node]) => [what, node.textContent.trim().slice(0, 40), hidden(node)])
    .filter(([, , why]) => why);
}

export function outOfSight() {
  document.querySelector("answer-row")?.removeAttribute("data-settling");
  const wide = document.documentElement.scrollWidth > innerWidth ? [["page", "", "scrolls sideways"]] : [];
  return [
    ...told(wanted()),
    ...parted(),
    ...zeroedLate(),
    ...cutThrough(),
    ...faded(),
    ...clamped(),
    ...dotted(),
    ...wide,
  ];
}

/** The same of the pad, with the longest of titles; every key is measured too. */
export function padOutOfSight(moments) {
  const titles = moments
    .map(({ bench }) => bench.prompts[0]?.weigh?.name ?? "")
    .sort((one, other) => other.length - one.length);
  openPad({
    title: `${titles[0]}: what does it read?`,
    target: 1_651_000,
    tolerance: 4000,
    division: { mg: 10 },
    least: 0,
  });
  const pad = document.querySelector("dialog.pad");
  const parts = [...pad.querySelectorAll("button, h2, .pad-shown, .pad-off")].map((node) => ["pad", node]);
  const small = [...pad.querySelectorAll(".key")]
    .filter((key) => Math.min(key.offsetWidth, key.offsetHeight) < 55.5)
    .map((key) => ["pad", key.textContent, `is ${key.offsetWidth} by ${key.offsetHeight}`]);
  const found = [...told(parts), ...small];
  pad.close("");
  return found;
}
