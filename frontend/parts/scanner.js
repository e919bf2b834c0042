// Reading a bar code or QR code with the camera, where the browser can. The camera is on only while
// its sheet is open.
//
//   if (canScan()) { const text = await scanCode({ title: "Scan the lot" }); }   // null when left

import { openDialog } from "./dialog.js";
import { h, setText } from "./dom.js";
import { back } from "./sheets.js";
import { say } from "../words.js";

const LOOK_EVERY_MS = 150;

export function canScan() {
  return "BarcodeDetector" in globalThis && Boolean(navigator.mediaDevices?.getUserMedia);
}

/** @param {{title: string}} given */
export async function scanCode({ title }) {
  const video = h("video", {
    class: "scan-view",
    muted: true,
    playsinline: true,
    "aria-label": say("page-scanner-sees"),
  });
  const said = h("p", { class: "soft", role: "status" }, say("page-scanner-hold"));
  /** @type {HTMLDialogElement} */
  const dialog = h(
    "dialog",
    { "aria-label": title },
    h("form", { method: "dialog", class: "stack" }, h("h2", {}, title), video, said, back()),
  );
  const closed = openDialog(dialog).then((found) => found || null);
  /** @type {MediaStream | null} */
  let stream = null;
  try {
    stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
    if (!dialog.open) return await closed;
    video.srcObject = stream;
    video.play().catch(() => {}); // closed before its first frame
    look(video, dialog);
  } catch (error) {
    setText(said, say("page-scanner-no-camera", { why: nameOf(error) }));
  }
  try {
    return await closed;
  } finally {
    for (const track of stream?.getTracks() ?? []) track.stop();
  }
}

/** @param {unknown} error */
const nameOf = (error) => (error instanceof Error || error instanceof DOMException ? error.name : "unknown");

/**
 * Looks at the picture again and again until a code is found or the sheet is closed.
 * @param {HTMLVideoElement} video @param {HTMLDialogElement} dialog
 */
async function look(video, dialog) {
  const detector = new BarcodeDetector();
  while (dialog.open) {
    // A frame that cannot be read yet is no fault: the next one may be.
    const [found] = await detector.detect(video).catch(() => []);
    if (found?.rawValue) {
      dialog.close(found.rawValue);
      return;
    }
    await new Promise((resolve) => setTimeout(resolve, LOOK_EVERY_MS));
  }
}
