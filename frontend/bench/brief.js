/**
 * Few words beside the number: what a prompt says is cut between sentences, never within one.
 *
 * What has no room beside the number stands beneath it, in the same order. A caution has a short form
 * for when it was read before. The same cuts as bench/brief.py.
 */

import { last } from "./lists.js";

const MOST_WORDS = 25; // title, what to do and why, beside the number
const MOST_SHORT = 6; // of a caution that was read in full before

/**
 * {says, why, more} of a prompt. Urgent: of why as much is kept as fits beside one sentence. first: what stands
 * before what it says, whole, whatever else has room.
 * @param {{title: string, says: string, why: string}} prompt @param {boolean} isUrgent
 */
export function brief(prompt, isUrgent, first = "") {
  const room = MOST_WORDS - words(prompt.title) - words(first);
  const atLeast = first ? 0 : 1;
  const [least] = upTo(prompt.says, 0, atLeast);
  if (isUrgent) {
    const [why, beneath] = upTo(prompt.why, room - words(least), 0);
    const [says, more] = upTo(prompt.says, room - words(why), atLeast);
    return { says, why, more: joined(more, beneath) };
  }
  const [says, more] = upTo(prompt.says, room, atLeast);
  if (!more && words(says) + words(prompt.why) <= room) return { says, why: prompt.why, more };
  return { says, why: "", more: joined(more, prompt.why) };
}

/**
 * A caution in at most six words: as many of its first clauses as fit, else its first words.
 * @param {string} caution
 */
export function inShort(caution) {
  const ends = [...caution.matchAll(/[.:;,](?= |$)/g)].map((match) => match.index + 1);
  const fitting = (ends.length ? ends : [caution.length])
    .map((end) => caution.slice(0, end))
    .filter((clause) => words(clause) <= MOST_SHORT);
  if (fitting.length) return last(fitting).replace(/[.:;,]+$/, "");
  const first = caution.split(" ").slice(0, MOST_SHORT - 1);
  return `${first.join(" ")}…`;
}

/** A title or a part of one as a sentence of its own: with a stop at its end. @param {string} text */
export const sentence = (text) => (text === "" || ".!?".includes(text.slice(-1)) ? text : `${text}.`);

/** @param {...string} sentences */
export const joined = (...sentences) => sentences.filter(Boolean).join(" ");

/** @param {string} text */
const words = (text) => text.split(" ").filter(Boolean).length;

/**
 * [first, rest]: the first sentences that fit, at least so many, and the rest.
 * @param {string} text @param {number} room @param {number} atLeast
 */
function upTo(text, room, atLeast) {
  /** @type {string[]} */
  const first = [];
  /** @type {string[]} */
  const rest = [];
  for (const each of text.split(/(?<=[.!?]) /)) {
    const fits = rest.length === 0 && words(joined(...first, each)) <= room;
    (fits || first.length < atLeast ? first : rest).push(each);
  }
  return [first.join(" "), rest.join(" ")];
}
