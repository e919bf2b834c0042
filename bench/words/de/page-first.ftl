# Was dasteht, bevor die Module der Seite laufen (frontend/index.html, oldest.js, manifest.webmanifest).

page-first-what = Begleiter am Arbeitstisch: was zu tun ist, wie viel dazukommt, was die Waage zeigt, alle Timer.
page-first-opening = Der Arbeitstisch öffnet sich. Er braucht einen Browser mit JavaScript-Modulen.
page-first-too-old = Dieser Browser ist zu alt für Bowlside. Nötig: Safari 16 (iOS 16), Chrome oder Edge 105, Firefox 121 oder neuer. Den Browser aktualisieren oder diese Adresse in einem anderen öffnen.
