# Settings, and the plain truth about this phone and the server (frontend/screens/studio.js and its parts).

## What this browser can't do, and why

page-studio-cannot = What this browser can't do
page-studio-cannot-reload = It can't open or reload without the server. Keep it open until the batch is finished.
page-studio-cannot-awake = It can't keep the screen on. Set the phone's own lock to its longest time.
page-studio-cannot-keep-in-safari = Safari clears all of it after 7 days without a visit. Add the page to the home screen, open it there, and pair there.
page-studio-cannot-keep = Short of space, the phone may clear what is saved here. Connect soon after each batch.
page-studio-cannot-speak = It can't speak.
page-studio-cannot-ring = It can't ring.
page-studio-because-insecure = Why: this page was opened over plain http.
page-studio-because-lacking = Why: this browser has no way to.
page-studio-because-not-installed = Why: it is not on the home screen.
page-studio-because-no-promise = Why: the browser hasn't promised to save it.
