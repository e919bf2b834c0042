// Runs before the page, in whatever browser there is: one that is too old is told so, in place of a page that
// would open and then fail. Written for the oldest of them: no module, nothing newer than 2009.
//
// What is asked for, and since when (MDN's compatibility data; Firefox's :has() from memory): AbortSignal.timeout
// is in Safari 16, Chrome 103 and Firefox 100; :has() in Safari 15.4, Chrome 105 and Firefox 121.
(function () {
  var has = window.CSS && CSS.supports && CSS.supports("selector(:has(a))");
  var isNew =
    has &&
    window.AbortSignal &&
    "timeout" in AbortSignal &&
    "findLast" in Array.prototype &&
    "hasOwn" in Object &&
    window.HTMLDialogElement &&
    window.indexedDB;
  if (isNew) return;
  window.isTooOld = true; // app.js then does nothing
  var page = document.getElementById("page");
  if (!page) return;
  page.innerText = "%too-old%"; // the server writes the words in (api/page_words.py)
  page.setAttribute("role", "alert");
  page.className = "opening";
})();
