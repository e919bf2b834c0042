# A recipe's versions (frontend/screens/versions.js).

page-versions-title = Versions
page-versions-version = Version { $number }
page-versions-named = { $at }: { $title }
page-versions-first = The first.
page-versions-made = Made with it
page-versions-not-made = Nothing made with it yet
page-versions-run = { $at }, { $count }
page-versions-run-open = { $at }, { $count }, still open
