/**
 * The trade's arithmetic on the phone: the one door to it, for the rest of the page.
 *
 * The same chapters as the Python package of the same name, with the same results to the last
 * byte, so that a run can start and go on with no network. What may not come in: the document,
 * the clock, storage, the network, randomness.
 *
 *   const sheet = makeSheet(measured, { id, version }, chooseSize(measured, kit, request).size, kit);
 *   const said = now(sheet, fold(sheet, entries), at);
 */

export { readAmount, readCelsiusMk, readDensity, readDurationMs, readMassMg, readPpm } from "./amounts.js";
export { sketch, tidy, untidyPath } from "./draft.js";
export { BenchError } from "./errors.js";
export { fold } from "./journal.js";
export { now } from "./prompting.js";
export { record } from "./record.js";
export { chooseSize, makeSheet } from "./sheet.js";
export { guidePhase, rings, waitPhase, warnAt, windowPhase } from "./waits.js";
export { canonical, celsius, grams, shareOut, span, toDivision } from "./whole.js";
