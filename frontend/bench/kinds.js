/** The kinds of entry, as bench/kinds.py has them: the server writes them in (api/page_tables.py). */

/** @typedef {{readonly [kind: string]: {fields: {[field: string]: string}, traits: string[]}}} Rows */

/** @type {Rows} */
export const RUN_KINDS = {};

/** @type {Rows} */
export const SHELF_KINDS = {};
