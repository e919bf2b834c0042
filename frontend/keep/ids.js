/**
 * UUID version 7 (RFC 9562, 5.7): 48 bits of milliseconds, then chance, so ids sort by time.
 *
 * Made from getRandomValues, because crypto.randomUUID is missing on a plain http origin.
 */

/** @param {number} ms whole milliseconds since 1970 @returns {string} lower case, with hyphens */
export function newId(ms) {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  const view = new DataView(bytes.buffer);
  view.setUint16(0, Math.floor(ms / 2 ** 32));
  view.setUint32(2, ms % 2 ** 32);
  bytes[6] = 0x70 | (bytes[6] & 0x0f);
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})/, "$1-$2-$3-$4-");
}

/**
 * The four capitals that stand for a device in batch numbers, from the chance in its id: one in 456 976
 * that two have the same, and then day and count must meet too. See bench/batch_number.py.
 * @param {string} device
 */
export function markOf(device) {
  const chance = Number.parseInt(device.replace(/-/g, "").slice(-10), 16);
  return [0, 1, 2, 3]
    .map((place) => String.fromCharCode(65 + (Math.floor(chance / 26 ** place) % 26)))
    .join("");
}
