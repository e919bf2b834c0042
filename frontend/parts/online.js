// What a screen asks of the server alone, through the page, which knows the way there.
//
//   const told = await askOnline(this, "POST", "/buying", { wants, today });   // its answer, or { says }

import { tell } from "./dom.js";
/** @import { BodyOf } from "../../types/server" */

/**
 * @template {string} P
 * @param {HTMLElement} screen @param {string} method @param {P} path @param {unknown} [body]
 * @param {boolean} [isChange] what it changed is on this phone too when it is answered
 * @returns {Promise<BodyOf<P> | {says: string}>}
 */
export const askOnline = (screen, method, path, body, isChange = false) =>
  new Promise((done) =>
    tell(screen, "online-asked", {
      method,
      path,
      body,
      isChange,
      done: (answer) => done(/** @type {BodyOf<P>} */ (answer)),
    }),
  );
