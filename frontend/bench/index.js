/**
 * The trade's arithmetic on the phone: the one door to it, for the rest of the page.
 *
 * The same chapters as the Python package of the same name, with the same results to the last
 * byte, so that a run can start and go on with no network. What may not come in: the document,
 * the clock, storage, the network, randomness.
 *
 * What the bench itself does not need stays out of this door, so that the page opens sooner: amounts, draft, sheet,
 * record, digest, batch-number, shelf, lots, gather, label, dryness, last-time and cost are imported by the
 * screens that want them.
 *
 *   const { chooseSize, makeSheet } = await import("./sheet/index.js");
 *   const sheet = makeSheet(measured, { id, version }, chooseSize(measured, kit, request).size, kit);
 *   const said = now(sheet, fold(sheet, entries), at);
 */

export { BenchError } from "./errors.js";
export { fold, Folding } from "./journal/index.js";
export { now } from "./prompting/index.js";
export { guidePhase, rings, waitPhase, warnAt, windowPhase } from "./waits.js";
export { canonical, temperature, mass, reading, shareOut, span, toDivision } from "./whole.js";
