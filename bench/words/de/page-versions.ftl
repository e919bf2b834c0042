# A recipe's versions (frontend/screens/versions.js).

page-versions-title = Fassungen
page-versions-version = Fassung { $number }
page-versions-named = { $at }: { $title }
page-versions-first = Die erste.
page-versions-write-on = Von dieser Fassung aus weiterschreiben
page-versions-copy = Als Variante verdoppeln
page-versions-filing = Schlagwörter und Archiv
page-versions-tags = Schlagwörter, mit Kommas getrennt
page-versions-save-tags = Schlagwörter speichern
page-versions-archive = Rezept ins Archiv legen
page-versions-take-back = Aus dem Archiv holen
page-versions-archived = Im Archiv seit { $at }.
page-versions-filed = Für alle Geräte gespeichert.
page-versions-compare = Zwei Fassungen vergleichen
page-versions-from = Von
page-versions-to = Zu
page-versions-alike = Kein Unterschied.
page-versions-open = Öffnen oder drucken
page-versions-make = Diese Fassung machen
page-versions-restore = Wieder zur neuesten machen
page-versions-restored = Fassung { $number } ist wieder die neueste.
page-versions-more = Frühere Fassungen zeigen
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
