// Runs before anything is painted: where this phone's maker has chosen day or night, the page opens in it and
// never flashes in the other. app.js says here what was chosen; without a choice the stylesheet asks the phone.
(function () {
  var chosen = null;
  try {
    chosen = localStorage.getItem("theme");
  } catch (error) {
    return; // no place to keep anything: the page will say so itself
  }
  if (chosen === "night" || chosen === "day") document.documentElement.setAttribute("data-theme", chosen);
})();
