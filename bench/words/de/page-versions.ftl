# A recipe's versions (frontend/screens/versions.js).

page-versions-title = Fassungen
page-versions-version = Fassung { $number }
page-versions-named = { $at }: { $title }
page-versions-first = Die erste.
page-versions-write-on = Von dieser Fassung aus weiterschreiben
page-versions-copy = Kopie anlegen
page-versions-has-draft = Dieses Rezept hat einen Entwurf. Erst speichern oder verwerfen.
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
