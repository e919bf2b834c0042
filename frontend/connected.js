/**
 * What is for the desk, with a connection: it needs the server, or waits for it, so it is not kept for offline. All
 * that only this module asks for comes as a piece of its own, online.js, of which the worker keeps nothing
 * (api/pieces.py). Without a connection each of these is refused with `says`, and nothing else is gone.
 */

import { styled } from "./parts/dom.js";
import { say } from "./words.js";

/** @template M @param {Promise<M>} module @returns {Promise<M>} */
const online = (module) =>
  module.catch((error) => {
    throw Object.assign(error, {
      says: say(error.isOtherVersion ? "page-app-newer-there" : "page-app-desk-away"),
    });
  });

/** @type {Promise<boolean> | null} */
let styles = null; // of what is seen of these, on their way or here

/** What is seen, once its styles are here too. @template M @param {Promise<M>} module @returns {Promise<M>} */
async function dressed(module) {
  const made = await online(module);
  if (!(await (styles ??= styled("style/online.css")))) styles = null; // asked for again with the next
  return made;
}

// Screens, each registered.
export const audit = () => dressed(import("./screens/audit.js")).then((made) => made.registerAuditScreen());
export const bring = () => dressed(import("./screens/bring.js")).then((made) => made.registerBringScreen());
export const delivery = () =>
  dressed(import("./screens/delivery.js")).then((made) => made.registerDeliveryScreen());
export const buying = () =>
  dressed(import("./screens/buying.js")).then((made) => made.registerBuyingScreen());
export const figures = () =>
  dressed(import("./screens/figures.js")).then((made) => made.registerFiguresScreen());
export const recall = () =>
  dressed(import("./screens/recall.js")).then((made) => made.registerRecallScreen());
export const trials = () =>
  dressed(import("./screens/trials.js")).then((made) => made.registerTrialsScreen());
export const week = () => dressed(import("./screens/week.js")).then((made) => made.registerWeekScreen());
export const versions = () =>
  dressed(import("./screens/versions.js")).then((made) => made.registerVersionsScreen());

// Parts of screens, and what is behind them.
export const archive = () => online(import("./keep/archive.js"));
export const desk = () => online(import("./desk-online.js"));
export const costAhead = () => dressed(import("./parts/cost-ahead.js"));
export const deviceList = () => dressed(import("./parts/device-list.js"));
export const door = () => online(import("./keep/door.js"));
export const labelSheets = () => dressed(import("./parts/label-sheet.js"));
export const outletForms = () => dressed(import("./parts/outlet-forms.js"));
export const paperFile = () => dressed(import("./parts/paper-file.js"));
export const studioSettings = () => dressed(import("./parts/studio-settings.js"));
export const supplyForms = () => dressed(import("./parts/supply-forms.js"));
export const pastedText = () => dressed(import("./parts/recipe-text.js"));
export const merging = () => dressed(import("./parts/recipe-merge.js"));
export const orders = () => online(import("./keep/week.js"));
export const seeking = () => online(import("./seek.js"));
