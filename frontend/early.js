// Runs before anything is painted. What this phone's maker chose, as app.js left it here: day or night, in which the
// page opens and never flashes in the other (without a choice the stylesheet asks the phone); and the language and the
// units, which go along with whatever is asked, set anew each time since a browser may forget them (api/language.py).
(function () {
  var theme = null;
  var language = null;
  var units = null;
  try {
    theme = localStorage.getItem("theme");
    language = localStorage.getItem("language");
    units = localStorage.getItem("units");
  } catch (error) {
    return; // no place to keep anything: the page will say so itself
  }
  if (theme === "night" || theme === "day") document.documentElement.setAttribute("data-theme", theme);
  // biome-ignore lint/suspicious/noDocumentCookie: the other way is in no Safari before 18.4
  if (language) document.cookie = `language=${language}; path=/; max-age=31536000; samesite=lax`;
  // biome-ignore lint/suspicious/noDocumentCookie: as above
  if (units) document.cookie = `units=${units}; path=/; max-age=31536000; samesite=lax`;
})();
