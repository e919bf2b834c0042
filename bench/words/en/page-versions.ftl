# A recipe's versions (frontend/screens/versions.js).

page-versions-title = Versions
page-versions-version = Version { $number }
page-versions-named = { $at }: { $title }
page-versions-first = The first.
page-versions-write-on = Write on from this version
page-versions-copy = Duplicate as a variant
page-versions-filing = Tags and archive
page-versions-tags = Tags, with commas between them
page-versions-save-tags = Save tags
page-versions-archive = Archive this recipe
page-versions-take-back = Take it out of the archive
page-versions-archived = Archived on { $at }.
page-versions-filed = Saved for all devices.
page-versions-compare = Compare two versions
page-versions-from = From
page-versions-to = To
page-versions-alike = No difference.
page-versions-open = Open or print
page-versions-make = Make this version
page-versions-restore = Make it the newest again
page-versions-restored = Version { $number } is the newest again.
page-versions-more = Show earlier versions
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
