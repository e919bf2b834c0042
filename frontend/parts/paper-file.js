// The file of a paper, read as it is chosen: a PDF as it is; a picture of one is drawn anew, without place and device.
//
//   const { blob, sha256, media } = await paperFile(file);    // throws an error with `says`

import { say } from "../words.js";
import { refuse } from "./form.js";
import { hexOf, photograph } from "./photograph.js";

const MOST_BYTES = 8 * 1024 * 1024; // as the server takes (paper_limit)
const PDF = "application/pdf";

/** @param {File} file @returns {Promise<{blob: Blob, sha256: string, media: "pdf" | "jpeg"}>} */
export async function paperFile(file) {
  if (file.type !== PDF) return { ...(await photograph(file)), media: "jpeg" };
  if (file.size > MOST_BYTES) throw refuse(say("page-shelf-paper-too-large"));
  const bytes = await file.arrayBuffer();
  const sha256 = await hexOf(bytes);
  if (sha256 === null) throw refuse(say("page-photograph-needs-https"));
  return { blob: new Blob([bytes], { type: PDF }), sha256, media: "pdf" };
}
