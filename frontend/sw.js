/**
 * Keeps one whole copy of the page on the phone, so that it opens with no network.
 *
 * The server writes VERSION and both lists in as it sends this file (api/pack.py). VERSION is the hash of the listed
 * files, and a copy is only kept when all that the server gave is of that version: modules of two versions never
 * meet. A newer copy waits until the maker lets it take over, or the page is closed.
 */

const VERSION = "";
// An ETag carries the SHA-256 of what lies in the repository, whatever was sent of it.
const TAG = /[0-9a-f]{64}/;

// What the page opens with. It is asked about file by file: a browser that has just opened the page has it.
/** @type {string[]} */
const OPENED = [];

// What it asks for later. It comes in one piece (api/pack.py), which is smaller than its files.
/** @type {string[]} */
const REST = [];

const PACK = "rest.pack";
const FILES = new Set([...OPENED, ...REST]);

const PREFIX = "bowlside-page-";
const CACHE = PREFIX + VERSION;
const ROOT = new URL("./", self.location);

self.addEventListener("install", (event) => event.waitUntil(keepCopy()));

self.addEventListener("activate", (event) => event.waitUntil(begin()));

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const file = listed(new URL(request.url));
  // The journal's traffic, and whatever else is not the page's own, goes to the server untouched.
  if (request.method === "GET" && file !== null) event.respondWith(fromCopy(file, request));
});

/** The listed file this address stands for, whatever its query says; null when there is none. */
function listed(url) {
  if (url.origin !== ROOT.origin || !url.pathname.startsWith(ROOT.pathname)) return null;
  const path = url.pathname.slice(ROOT.pathname.length) || "index.html";
  return FILES.has(path) ? path : null;
}

async function fromCopy(file, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(address(file), { ignoreVary: true })) ?? fetch(request);
}

/** All files or none: anything missing, failed or of another version fails the install. */
async function keepCopy() {
  const [opened, rest] = await Promise.all([Promise.all(OPENED.map(asked)), asked(PACK)]);
  const version = await hashOf([...opened, rest]);
  if (version !== VERSION) throw new Error(`sw.js keepCopy: wanted ${VERSION}, got ${version}`);
  const copies = [...opened, ...unpacked(await rest.response.arrayBuffer())];
  const cache = await caches.open(CACHE);
  await Promise.all(copies.map(({ file, response }) => cache.put(address(file), response)));
}

/** Asked about again, so that nothing stale is kept; what the page has just loaded is not sent twice. */
async function asked(file) {
  const response = await fetch(address(file), { cache: "no-cache" });
  if (!response.ok) throw new Error(`sw.js asked: ${file} answered ${response.status}`);
  return { file, response, hash: TAG.exec(response.headers.get("ETag"))?.[0] };
}

/** The files of the one piece: a line says the path, type and length of each, and then come their bytes. */
function unpacked(buffer) {
  const bytes = new Uint8Array(buffer);
  let at = bytes.indexOf(0x0a) + 1;
  return JSON.parse(new TextDecoder().decode(bytes.subarray(0, at))).map(([file, type, length]) => {
    const content = bytes.slice(at, at + length);
    at += length;
    return { file, response: new Response(content, { headers: { "Content-Type": type } }) };
  });
}

/** The page that brought this worker is served by it at once: a first visit, then no network, must do. */
async function begin() {
  await dropOldCopies();
  await self.clients.claim();
}

async function dropOldCopies() {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
}

/** index.html is asked for as the folder, which is how the page is opened. */
function address(file) {
  return new URL(file === "index.html" ? "./" : file, ROOT).href;
}

/** The first 12 hex digits of SHA-256 over each "path NUL hash LF", in list order. */
async function hashOf(copies) {
  const lines = copies.map(({ file, hash }) => `${file}\0${hash}\n`).join("");
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(lines));
  const hex = Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.slice(0, 12);
}
