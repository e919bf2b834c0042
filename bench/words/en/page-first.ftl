# What stands before the page's own modules run (frontend/index.html, oldest.js, manifest.webmanifest).

page-first-what = A bench companion: what to do now, how much to add, what the scale will read, and every timer.
page-first-opening = Opening the bench. It needs a browser with JavaScript modules.
page-first-too-old = This browser is too old for Bowlside. It needs Safari 16 (iOS 16), Chrome or Edge 105, Firefox 121, or a newer one. Update this browser, or open this address in another.
