/**
 * What is for the desk, with a connection: it needs the server, or waits for it, so it is not kept for offline. All
 * that only this module asks for comes as a piece of its own, online.js, of which the worker keeps nothing
 * (api/pieces.py). Without a connection each of these is refused with `says`, and nothing else is gone.
 */

import { say } from "./words.js";

/** @template M @param {Promise<M>} module @returns {Promise<M>} */
const online = (module) =>
  module.catch((error) => {
    throw Object.assign(error, { says: say(error.isOtherVersion ? "page-app-newer" : "page-app-desk-away") });
  });

// Screens, each registered.
export const audit = () => online(import("./screens/audit.js")).then((made) => made.registerAuditScreen());
export const bring = () => online(import("./screens/bring.js")).then((made) => made.registerBringScreen());
export const delivery = () =>
  online(import("./screens/delivery.js")).then((made) => made.registerDeliveryScreen());
export const buying = () => online(import("./screens/buying.js")).then((made) => made.registerBuyingScreen());
export const figures = () =>
  online(import("./screens/figures.js")).then((made) => made.registerFiguresScreen());
export const recall = () => online(import("./screens/recall.js")).then((made) => made.registerRecallScreen());
export const trials = () => online(import("./screens/trials.js")).then((made) => made.registerTrialsScreen());
export const week = () => online(import("./screens/week.js")).then((made) => made.registerWeekScreen());
export const versions = () =>
  online(import("./screens/versions.js")).then((made) => made.registerVersionsScreen());

// Parts of screens, and what is behind them.
export const archive = () => online(import("./keep/archive.js"));
export const costAhead = () => online(import("./parts/cost-ahead.js"));
export const deviceList = () => online(import("./parts/device-list.js"));
export const door = () => online(import("./keep/door.js"));
export const labelSheets = () => online(import("./parts/label-sheet.js"));
export const paperFile = () => online(import("./parts/paper-file.js"));
export const supplyForms = () => online(import("./parts/supply-forms.js"));
export const pastedText = () => online(import("./parts/recipe-text.js"));
export const merging = () => online(import("./parts/recipe-merge.js"));
export const orders = () => online(import("./keep/week.js"));
export const seeking = () => online(import("./seek.js"));
