# A recipe's versions (frontend/screens/versions.js).

page-versions-title = Fassungen
page-versions-version = Fassung { $number }
page-versions-named = { $at }: { $title }
page-versions-first = Die erste.
page-versions-made = Damit gemacht
page-versions-not-made = Noch nichts damit gemacht
page-versions-run = { $count ->
    [one] { $at }, { $count } Stück
   *[other] { $at }, { $count } Stück
}
page-versions-run-open = { $count ->
    [one] { $at }, { $count } Stück, noch offen
   *[other] { $at }, { $count } Stück, noch offen
}
