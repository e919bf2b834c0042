/** Taking in what belongs to the record alone: numbers, lots, ticks, weighed pieces, pictures, hours, remarks. */

/** @import { Takes } from "../../../types/bench" */

/**
 * @typedef {"numbered" | "gathered" | "ticked" | "measured" | "aired" | "proved" | "labelled" | "pictured" | "worked"
 *   | "noted" | "kept" | "met" | "judged" | "finished" | "signed" | "undone"} OnPaper
 */

/** @type {Pick<Takes, OnPaper>} */
export const ON_PAPER = {
  numbered(tally, _at, { number }) {
    tally.number ??= number;
    if (number !== tally.number) tally.alsoNumbered.add(number);
  },

  gathered(tally, at, { ingredient, lot, mg = null, count = null }) {
    if (!tally.gatherable.has(ingredient)) return false;
    tally.gathered.push({ at, ingredient, lot, mg, count });
  },

  ticked(tally, at, { thing }) {
    if (!tally.ticked.has(thing)) tally.ticked.set(thing, at);
  },

  measured(tally, at, { what, mg, step = null, piece = null, scale = null }) {
    tally.measured.push({ at, what, mg, step, piece, scale });
  },

  aired(tally, at, { humidity, mk = null }, { device }) {
    tally.air.push({ at, device, humidity, mk });
  },

  proved(tally, at, { scale, weight_mg, mg }, { device }) {
    tally.proved.push({ at, device, scale, weight_mg, mg });
  },

  labelled(tally, at, { market, printed, on, binned, text = "" }, { device }) {
    tally.labelled.push({ at, device, market, printed, on, binned, text });
  },

  pictured(tally, at, { picture, sha256, text = "", step = null }, { device }) {
    tally.pictures.push({ at, device, picture, sha256, text, step });
  },

  worked(tally, _at, { ms, step = "" }) {
    tally.worked.set(step, ms);
  },

  noted(tally, at, { step = null, text }, { device }) {
    tally.notes.push({ at, device, step, text });
  },

  kept(tally, _at, { pieces }) {
    tally.kept = pieces;
  },

  met(tally, at, { criterion, answer, text = "" }, { device }) {
    tally.met.set(criterion, { at, device, answer, text });
  },

  judged(tally, at, { about, verdict, name, why = "", signing = null }, { id, device }) {
    tally.judgements.push({ id, at, device, about, verdict, name, why, signing });
  },

  finished(tally, at) {
    tally.finishedAt ??= at;
  },

  signed() {}, // it was taken back, or seals nothing here

  undone() {
    return false; // what it takes back is not here, or came after it
  },
};
