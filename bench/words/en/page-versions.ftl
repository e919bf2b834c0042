# A recipe's versions (frontend/screens/versions.js).

page-versions-title = Versions
page-versions-version = Version { $number }
page-versions-named = { $at }: { $title }
page-versions-first = The first.
page-versions-write-on = Write on from this version
page-versions-copy = Make a copy
page-versions-has-draft = This recipe has a draft. Save or remove that first.
page-versions-made = Made with it
page-versions-not-made = Nothing made with it yet
page-versions-run = { $count ->
    [one] { $at }, { $count } piece
   *[other] { $at }, { $count } pieces
}
page-versions-run-open = { $count ->
    [one] { $at }, { $count } piece, still open
   *[other] { $at }, { $count } pieces, still open
}
