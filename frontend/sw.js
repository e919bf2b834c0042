/**
 * Keeps one whole copy of the page on the phone, so that it opens with no network.
 *
 * The server writes VERSION, the LANGUAGE it is of, and the names of the pieces in as it sends this file
 * (api/pieces.py). VERSION is the hash of the pieces, and a copy is only kept when all that the server gave is of that
 * version: modules of two versions never meet. A newer copy waits until the maker lets it take over, or the page is
 * closed.
 */

const VERSION = "";
const LANGUAGE = "";
// An ETag carries the SHA-256 of a piece, whatever a proxy made of the rest of it.
const TAG = /[0-9a-f]{64}/;

/** @type {string[]} */
const PIECES = [];

const PREFIX = "bowlside-page-";
const CACHE = PREFIX + VERSION;
// What this scope is no checker knows: of a worker it knows a window's, or any worker's.
const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const ROOT = new URL("./", worker.location.href);

/** @typedef {{file: string, response: Response, hash: string | undefined}} Copy a piece as the server gave it */

worker.addEventListener("install", (event) => event.waitUntil(keepCopy()));

worker.addEventListener("activate", (event) => event.waitUntil(begin()));

worker.addEventListener("message", (event) => {
  if (event.data === "take over") worker.skipWaiting();
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const file = listed(new URL(request.url));
  // The journal's traffic, and whatever else is not the page's own, goes to the server untouched.
  if (request.method === "GET" && file !== null) event.respondWith(fromCopy(file, request));
});

/** The piece this address stands for, whatever its query says; null when there is none. @param {URL} url */
function listed(url) {
  if (url.origin !== ROOT.origin || !url.pathname.startsWith(ROOT.pathname)) return null;
  const path = url.pathname.slice(ROOT.pathname.length) || "index.html";
  return PIECES.includes(path) ? path : null;
}

/** @param {string} file @param {Request} request */
async function fromCopy(file, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(address(file), { ignoreVary: true })) ?? fetch(request);
}

/** All files or none: anything missing, failed or of another version fails the install. */
async function keepCopy() {
  const copies = (await copiesAs({})) ?? (await copiesAs({ headers: { "Accept-Language": LANGUAGE } }));
  if (!copies) throw new Error(`sw.js keepCopy: what came is not ${VERSION}`);
  const cache = await caches.open(CACHE);
  await Promise.all(copies.map(({ file, response }) => cache.put(address(file), response)));
}

/**
 * All pieces, if they are of this version. A browser may ask for a worker in one language and for what the worker asks
 * for in another: then they are asked for in this worker's own.
 * @param {RequestInit} how
 */
async function copiesAs(how) {
  const copies = await Promise.all(PIECES.map((file) => asked(file, how)));
  return (await hashOf(copies)) === VERSION ? copies : null;
}

/**
 * Asked about again, so that nothing stale is kept; what the page has just loaded is not sent twice.
 * @param {string} file @param {RequestInit} how @returns {Promise<Copy>}
 */
async function asked(file, how) {
  const response = await fetch(address(file), { ...how, cache: "no-cache" });
  if (!response.ok) throw new Error(`sw.js asked: ${file} answered ${response.status}`);
  return { file, response, hash: TAG.exec(response.headers.get("ETag") ?? "")?.[0] };
}

/** The page that brought this worker is served by it at once: a first visit, then no network, must do. */
async function begin() {
  await dropOldCopies();
  await worker.clients.claim();
}

async function dropOldCopies() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
}

/** index.html is asked for as the folder, which is how the page is opened. @param {string} file */
function address(file) {
  return new URL(file === "index.html" ? "./" : file, ROOT).href;
}

/** The first 12 hex digits of SHA-256 over each "path NUL hash LF", in list order. @param {readonly Copy[]} copies */
async function hashOf(copies) {
  const lines = copies.map(({ file, hash }) => `${file}\0${hash}\n`).join("");
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(lines));
  const hex = Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.slice(0, 12);
}
