// A modal dialog belongs to the screen it was opened on, and closes with it: an answer can only be given where
// it will be heard.
//
//   const given = await openDialog(dialog);   // its returnValue, "" when it was left; the dialog is gone by then
//   closeDialogs();                           // another screen comes

const owned = /** @type {Set<HTMLDialogElement>} */ (new Set());

/**
 * `stays`: of the page, not of a screen, as what is said of the time away.
 * @param {HTMLDialogElement} dialog @param {{stays?: boolean}} [how] @returns {Promise<string>}
 */
export function openDialog(dialog, { stays = false } = {}) {
  document.body.append(dialog);
  dialog.showModal();
  if (!stays) owned.add(dialog);
  return new Promise((resolve) => {
    const end = () => {
      owned.delete(dialog);
      dialog.remove();
      resolve(dialog.returnValue);
    };
    dialog.addEventListener("close", end);
    // A browser tells of the end with its next frame. A phone that is locked draws none, and the answer was given.
    dialog.addEventListener("submit", (event) => {
      if (event.defaultPrevented) return;
      event.preventDefault();
      dialog.close(event.submitter?.getAttribute("value") ?? "");
      end();
    });
  });
}

export function closeDialogs() {
  for (const dialog of owned) dialog.close("");
}
