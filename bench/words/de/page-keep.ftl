# Was auf diesem Handy gespeichert ist und was den Server erreicht (frontend/keep).

## Keine Verbindung, oder kein Zutritt

page-keep-away = Keine Verbindung. Auf diesem Handy gespeichert, wird später gesendet.
page-keep-unpaired = Dieses Handy ist nicht gekoppelt. Was du tust, ist hier gespeichert.
page-keep-shut-out = Dieses Handy ist ausgesperrt. Was du tust, ist hier gespeichert.
page-keep-status = Der Server lehnt ab ({ $status }). Später noch einmal versuchen.
page-keep-needs = { $what ->
    [kit] Keine Verbindung. Die Ausrüstung liegt auf dem Server. Später noch einmal versuchen.
   *[settings] Keine Verbindung. Diese Einstellungen liegen auf dem Server. Später noch einmal versuchen.
}
page-keep-changed = { $what ->
    [kit] Ein anderes Gerät hat die Ausrüstung geändert. Ansehen, dann noch einmal ändern.
   *[settings] Ein anderes Gerät hat die Einstellungen geändert. Ansehen, dann noch einmal ändern.
}

## Abgelehnt

page-keep-held = Das Handy wurde ausgesperrt, bevor das gesendet war. Ansehen, dann noch einmal senden oder beiseitelegen.
page-keep-not-taken = Vom Server abgelehnt.

## Der Speicher dieses Handys

page-keep-full = Dieses Handy ist voll: nichts gespeichert. Platz schaffen, dann noch einmal tippen.
page-keep-failed = Auf diesem Handy nicht gespeichert ({ $why }). Noch einmal tippen. Hilft das nicht, Seite neu laden.
page-keep-no-disk = Dieser Browser lässt die Seite nichts speichern. Privates Surfen beenden oder Websitedaten erlauben.

## Über dem Arbeitstisch, in so wenigen Wörtern wie möglich

page-keep-link = { $state ->
    [unpaired] nicht gekoppelt
    [shut-out] ausgesperrt
   *[offline] keine Verbindung
}
page-keep-unsent = { $count } nicht gesendet
page-keep-refused = { $count } abgelehnt
