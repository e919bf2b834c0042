# What stands before the page's own modules run (frontend/index.html, oldest.js, manifest.webmanifest).

page-first-what = A bench companion. It says what to do now and how much to add. It says what the scale will read, and times every wait.
page-first-opening = Opening the bench. It needs a browser with JavaScript modules.
page-first-too-old = This browser is too old for Bowlside. Needs Safari 16 (iOS 16), Chrome or Edge 105, Firefox 121, or newer. Update this browser, or open this address in another.
