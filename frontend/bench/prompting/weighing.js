/** A line is weighed, counted or spooned: add this much, and the scale will read that. */

import { say } from "../../words.js";
import { joined, sentence } from "../brief.js";
import { weighedLines } from "../capacity.js";
import { last } from "../lists.js";
import { noteOf, pieceWord, spoonsWords } from "../sheet-words.js";
import { MOST_PIECES } from "../yields.js";
import { readsIn } from "../weighing.js";
import { ceiling, mass, product, reading, toDivision } from "../whole.js";
import { answer } from "./answers.js";
import { letBe, once, over, short } from "./off-target.js";
import { filling, onScale } from "./on-scale.js";
import { beforePouring } from "./room.js";
import { beforeLook, beforeNext } from "./urgency.js";
import { carried, divisionNow, hasMass, isFirstAsked, scaleOf, vesselOf } from "./view.js";
/** @import { Division } from "../whole.js" */
/** @import { Answer, LineState, LineStatus, Scale, SheetLine, WeighHow } from "../../../bench/shapes/page" */
/** @import { WeighStep } from "../../../bench/shapes/page" */
/** @import { Draft } from "../../../types/bench" */
/** @import { Said, View } from "./view.js" */

const DILUTED = 100; // one part in so many, to weigh what is too little for a scale

/** @param {View} view @param {WeighStep} step @returns {Said} */
export function weigh(view, step) {
  const lines = step.lines.map((key) => ({ line: view.lines.get(key), told: view.state.lines[key] }));
  const first = (/** @type {LineStatus} */ wanted) => lines.find(({ told }) => told.status === wanted);
  const weighed = (/** @type {LineStatus} */ wanted) => {
    const found = first(wanted);
    return found && hasMass(found) ? found : undefined;
  };
  const off = weighed("over");
  if (off) return over(view, off.line, off.told);
  // A line that fell short is asked about, unless its round was carried up: then it is topped up.
  const lacking = weighed("short");
  if (lacking) {
    return carried(view, lacking.line) > 0
      ? addLine(view, lacking.line, lacking.told, true)
      : short(view, lacking.line, lacking.told, addLine(view, lacking.line, lacking.told, true));
  }
  const { line, told } = first("open") ?? last(lines);
  const adding = addLine(view, line, told, false);
  const look = beforeLook(view, line);
  if (!isFirstAsked(view, step))
    return beforePouring(view, line, {
      ...adding,
      says: joined(filling(view, line), adding.says ?? "", look),
    });
  // What is said of the whole step is said once, before the first pour.
  const words = joined(sentence(step.title), step.says);
  const twice = adding.weigh?.how === "cup" && namesVessel(view, words, line); // where it goes is said
  const says = twice ? noteOf(line) : (adding.says ?? "");
  const whole = joined(filling(view, line), words, says, beforeNext(view, step), look);
  return beforePouring(view, line, { ...adding, says: whole });
}

/** @param {View} view @param {string} words @param {SheetLine} line */
const namesVessel = (view, words, line) =>
  words.toLowerCase().includes(vesselOf(view, line).name.toLowerCase());

/**
 * Add this much; the scale will read that.
 * @param {View} view @param {SheetLine} line @param {LineState} told @param {boolean} isTopUp
 * @returns {Said}
 */
function addLine(view, line, told, isTopUp) {
  const body = { line: line.id };
  const leaveOut = answer("left_out", say("prompting-leave-out"), "left_out", body);
  if (told.target_mg === null) return addUnweighed(view, line, body, leaveOut);
  const add = told.target_mg - told.in_mg;
  const division = divisionNow(view, line);
  const scale = scaleOf(view, told.scale);
  const vessel = vesselOf(view, line);
  /** @type {"cup" | "tare" | "running"} */
  const how = line.cup ? "cup" : view.state.weigh === "tare" ? "tare" : "running";
  const before = how === "running" ? vessel.in_mg - vessel.zero_mg : 0;
  if (scale && told.in_mg === 0 && add > 0 && toDivision(add, division) === 0)
    return tooLittle(view, line, scale, { add, before }, leaveOut);
  const rounded = how === "running" ? roundedAway(view, line) : 0;
  const reads = toDivision(before + rounded + add, division);
  const text = reading(reads, division);
  const amount = reading(reads - toDivision(before, division), division); // by what the scale shows now
  const mg = seen(reads - before, add, division);
  const answers = [
    answer(
      "reads",
      say("prompting-reads", { reading: text }),
      "weighed",
      { ...body, mg, reading_mg: reads },
      { strong: true },
    ),
    answer("other", say("prompting-reads-else"), "weighed", body, { input: "reading" }),
  ];
  const pour = { line, told };
  if (isTopUp && hasMass(pour)) answers.push(...letBe(view, pour.line, pour.told));
  else if (line.optional) answers.push(leaveOut);
  if (how === "running" && before > 0) {
    const says = say("prompting-scale-reset-says", { held: reading(vessel.in_mg, division) });
    const label = say("prompting-scale-reset");
    answers.push(answer("zeroed", label, "zeroed", { vessel: line.vessel ?? "" }, { says }));
  }
  if (!isTopUp && !line.optional) answers.push(leaveOut);
  const place = vessel.name;
  const stands = { running: before > 0, tare: vessel.in_mg > 0, cup: true }[how];
  return {
    title: titleOf(line, amount, isTopUp),
    first: scale && !stands ? say("prompting-zero-with", { scale: scale.name, vessel: place }) : "",
    says: joined(how === "cup" ? say("prompting-then-into", { vessel: place }) : "", noteOf(line)),
    number: { mg: reads, text, caption: say(`prompting-caption-${how}`) },
    weigh: onScale(view, line, { how, add, amount, reads, before }),
    answers: once(told.out_twice ?? null, answers),
  };
}

/** @param {SheetLine} line @param {string} amount */
const titleOf = ({ name }, amount, isTopUp = false) =>
  say(isTopUp ? "prompting-top-up" : "prompting-add", { name, amount });

/**
 * A line with no mass: spoons, a count, or to texture.
 * @param {View} view @param {SheetLine} line @param {{line: string}} body @param {Draft<Answer>} leaveOut
 * @returns {Said}
 */
function addUnweighed(view, line, body, leaveOut) {
  /** @type {[WeighHow, string]} */
  const [how, amount] = line.spoons
    ? ["spoons", spoonsWords(line.spoons)]
    : line.count !== null
      ? ["count", say("prompting-counted", { count: line.count, unit: line.unit })]
      : ["texture", say("prompting-to-texture")];
  return {
    title: titleOf(line, amount),
    says: noteOf(line),
    number: { mg: null, text: amount, caption: how === "spoons" ? say("prompting-caption-spoons") : "" },
    weigh: onScale(view, line, { how, add: 0, amount, reads: null, before: 0 }),
    answers: [
      answer("in", say("prompting-added"), "weighed", { ...body, mg: line.about_mg ?? 0 }, { strong: true }),
      leaveOut,
    ],
  };
}

/**
 * What readings before this line rounded away in its vessel, in mg: the next reading takes it up, so that
 * roundings never add up. What is off by more was poured so, and is nothing to make good.
 * @param {View} view @param {SheetLine} line
 */
function roundedAway(view, line) {
  let off = 0;
  for (const other of view.sheet.lines) {
    const told = view.state.lines[other.id];
    if (other.vessel !== line.vessel || other.id === line.id || other.cup) continue;
    if (told.target_mg === null || told.in_mg === 0) continue;
    const away = told.target_mg - told.in_mg;
    if (Math.abs(away) <= Math.ceil((other.division_mg || 1) / 2)) off += away;
  }
  return off;
}

/**
 * The mass in mg that a reading as it was asked for stands for: what the scale shows, but within half its
 * division of what was asked, which is as much as one reading can say of a pour between two.
 * @param {number} shown @param {number} asked @param {Division} division
 */
function seen(shown, asked, division) {
  if (shown <= 0) return asked; // too small for the scale to show
  const half = division.uoz ? ceiling(division.mg, 2) : Math.floor(division.mg / 2); // a reading in whole mg
  return Math.min(Math.max(shown, asked - half), asked + half);
}

/**
 * Less than the scale can show: by spoon, stirred into more of another line, or in a larger batch.
 * @param {View} view @param {SheetLine} line @param {Scale} scale @param {{add: number, before: number}} given
 * @param {Draft<Answer>} leaveOut @returns {Said}
 */
function tooLittle(view, line, scale, { add, before }, leaveOut) {
  const shown = mass(add, [100, 10, 1].find((each) => add >= each) ?? 1);
  const pieces = ceiling(product(view.sheet.size.pieces, scale.division_mg), add);
  const spoon = spoonsWords(line.by_spoon);
  const many = pieceWord(view.sheet.piece, pieces);
  const caption = spoon ? say("prompting-caption-by-spoon") : say("prompting-caption-by-eye");
  return {
    title: titleOf(line, spoon || shown),
    says: joined(
      say("prompting-too-little-for-scale", { mass: shown, scale: scale.name }),
      diluted(view, line, add, readsIn(scale), shown),
      pieces <= MOST_PIECES ? say("prompting-shows-from", { pieces, many }) : "",
      noteOf(line),
    ),
    number: { mg: null, text: spoon || shown, caption },
    weigh: onScale(view, line, { how: "spoons", add, amount: spoon || shown, reads: null, before }),
    answers: [
      answer("in", say("prompting-is-in"), "weighed", { line: line.id, mg: add }, { strong: true }),
      answer("other", say("prompting-reads-else"), "weighed", { line: line.id }, { input: "reading" }),
      leaveOut,
    ],
  };
}

/**
 * How to weigh a hundredth: a little of it stirred into much of another line that is still to come.
 * @param {View} view @param {SheetLine} line @param {number} add @param {Division} division @param {string} shown
 */
function diluted({ sheet, state }, line, add, division, shown) {
  const take = DILUTED * add;
  const into = weighedLines(sheet, line).find(
    ({ id }) =>
      state.lines[id].status === "open" && id !== line.id && (state.lines[id].target_mg ?? 0) >= take,
  );
  if (!into || take < 5 * division.mg) return "";
  const stock = ceiling(5 * division.mg, 1000) * 1000;
  return say("prompting-dilute", {
    some: mass(stock, 1000),
    into: mass((DILUTED - 1) * stock, 1000),
    name: into.name,
    take: reading(take, division),
    mass: shown,
  });
}
