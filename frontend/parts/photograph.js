import { say } from "../words.js";
// A photograph from the camera or the album, made small and plain: drawn anew as a JPEG, so that
// nothing of what the camera wrote beside the picture (place, time, device) goes with it.
//
//   const { blob, sha256 } = await photograph(file);    // throws an error with `says`

const LONGEST_SIDE = 1600;
const QUALITIES = [0.82, 0.7, 0.55, 0.4];
const MOST_BYTES = 600_000;

/** @param {string} says */
function refuse(says) {
  return Object.assign(new Error(says), { says });
}

/** @param {Blob} file */
export async function photograph(file) {
  if (!globalThis.crypto?.subtle) throw refuse(say("page-photograph-needs-https"));
  const image = await createImageBitmap(file).catch(() => {
    throw refuse(say("page-photograph-unread"));
  });
  const scale = Math.min(1, LONGEST_SIDE / Math.max(image.width, image.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(image.width * scale));
  canvas.height = Math.max(1, Math.round(image.height * scale));
  const pen = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d"));
  pen.fillStyle = "#fff"; // what is see-through would turn black
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(image, 0, 0, canvas.width, canvas.height);
  image.close();
  for (const quality of QUALITIES) {
    const blob = await jpegOf(canvas, quality);
    if (!blob) break;
    if (blob.size > MOST_BYTES && quality !== QUALITIES.at(-1)) continue;
    const sha256 = await hexOf(await blob.arrayBuffer());
    if (sha256 !== null) return { blob, sha256 };
  }
  throw refuse(say("page-photograph-too-large"));
}

/** @param {HTMLCanvasElement} canvas @param {number} quality @returns {Promise<Blob | null>} */
const jpegOf = (canvas, quality) => new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg", quality));

/**
 * SHA-256 of text or bytes as hex; null where the page may not reckon it (plain http).
 * @param {string | BufferSource} content
 */
export async function hexOf(content) {
  if (!globalThis.crypto?.subtle) return null;
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  const digest = await crypto.subtle.digest("SHA-256", bytes);
  return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
