# Sicherungen von allem und eine Werkstatt, die umzieht (api/copies.py, copyfile.py, moved.py, upgrading.py).


## Eine machen

api-copies-there-already = { $file } gibt es schon. Eine andere Datei nennen oder --replace angeben.
api-copies-not-written = { $file } nicht beschreibbar: { $why }. Nichts wurde geschrieben. Was vorher da war, blieb.
api-copies-being-written = { $file } wird gerade geschrieben. Warten oder eine andere Datei nennen.
api-copies-no-public-key = { $key } in BOWLSIDE_COPIES_KEY ist kein öffentlicher Schlüssel. `bowlside copies-key FILE` macht einen.
api-copies-nothing-to-copy = In dieser Werkstatt ist noch nichts. Keine Sicherung gemacht.
api-copies-cut-off = Sie wurde abgebrochen.

## Sie senden

api-copies-not-sent = { $file } ist hier. BOWLSIDE_COPIES_SEND hat sie nicht gesendet: { $why }
api-copies-send-failed = { $file } ist hier. BOWLSIDE_COPIES_SEND endete mit { $code }: { $why }
api-copies-send-too-long = { $file } ist hier. BOWLSIDE_COPIES_SEND brauchte länger als { $length }.

## Eine lesen

api-copies-unread = { $file } nicht lesbar: { $why }.
api-copies-not-as-written = { $file } ist keine Sicherung, wie sie geschrieben wurde. Sie ist beschädigt, abgeschnitten oder etwas anderes. Eine andere nehmen.
api-copies-encrypted = { $file } ist verschlüsselt. Die Schlüsseldatei mit --identity nennen.
api-copies-damaged-or-key = { $file } ist beschädigt oder abgeschnitten, oder ein anderer Schlüssel öffnet sie. Eine andere Sicherung nehmen oder den richtigen Schlüssel.
api-copies-wrong-key = { $file } geht mit diesem Schlüssel nicht auf oder ist beschädigt. Anderen nehmen.
api-copies-no-key-file = Das ist keine Schlüsseldatei, oder das Passwort ist ein anderes.
api-copies-no-key = In dieser Schlüsseldatei ist kein Schlüssel.
api-copies-no-room = Kein Platz in { $folder }, um die Sicherung auszulegen ({ $why }). Das sagt nichts über die Sicherung. Dort Platz schaffen oder mit TMPDIR einen anderen Ort nennen.
api-copies-other-version = { $file } stammt von einer anderen Version von Bowlside (Tabellen: { $tables }). Diese Version nehmen oder eine spätere.
api-copies-do-not-fit = Die Zeilen von { $file } gehören nicht zusammen: { $why }.

## Was darin nicht lesbar ist

api-copies-unreadable = Diese Version kann nicht alles lesen in { $file }:
api-copies-version-says = Rezept { $id }, Fassung { $version }: { $says }
api-copies-within-kit = die Ausrüstung: { $says }
api-copies-within-hours = die Arbeitszeiten: { $says }
api-copies-within-settings = die Einstellungen: { $says }
api-copies-within-shelf = der Vorrat: { $says }
api-copies-batch-says = Charge { $id }: { $says }
api-copies-entry-no-json = Eintrag { $entry } ist kein JSON.
api-copies-entry-another = ein Eintrag gibt sich als ein anderer aus.
api-copies-otherwise = es ist nicht, wie es geschrieben wurde.

## Umziehen

api-copies-same-place = Die Werkstatt ist schon dort. Einen anderen Ort nennen.
api-copies-nothing-to-move = In { $place } ist nichts zum Umziehen.
api-copies-not-moved = Diese Werkstatt ist nicht umgezogen: sie ist hier.
api-copies-place-taken = Am Ziel ist schon eine Werkstatt. Einen leeren Ort nennen.
api-copies-has-moved = Diese Werkstatt ist umgezogen nach { $place }. Dort öffnen. Was hier ist, bleibt lesbar, und nichts mehr wird hier gespeichert.
api-copies-not-carried-unfit = Nichts wurde geändert. { $table }: diese Datenbank kann die Zeilen so nicht aufnehmen.
api-copies-not-carried-count = Nichts wurde geändert. { $table }: { $sent } Zeilen gesendet, { $count } angekommen.
api-copies-not-carried-changed = Nichts wurde geändert. { $table }: die { $count } angekommenen Zeilen sind nicht die gesendeten.

## Tabellen einer anderen Version

api-copies-brought-up = Die Tabellen der Werkstatt gingen von { $was } auf { $tables }. Was vorher hier war, liegt in { $file }.
api-copies-newer-studio = Die Tabellen dieser Werkstatt sind { $tables }. Dieses Programm kennt sie bis { $latest }: eine spätere Version hat sie benutzt. Nichts wurde verändert. Diese Version nehmen. Oder eine Sicherung an einen leeren Ort zurückholen: siehe before-… im Ordner der Sicherungen.
