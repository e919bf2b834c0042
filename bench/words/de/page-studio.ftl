# Einstellungen und wie es um dieses Handy und den Server steht (frontend/screens/studio.js und seine Teile).

## Was dieser Browser nicht kann, und warum

page-studio-cannot = Was dieser Browser nicht kann
page-studio-cannot-reload = Öffnen und neu laden geht nur mit Server. Offen lassen, bis die Charge fertig ist.
page-studio-cannot-awake = Der Bildschirm bleibt nicht an. Die Sperrzeit des Handys auf die längste stellen.
page-studio-cannot-keep-in-safari = Safari löscht alles nach 7 Tagen ohne Besuch. Zum Home-Bildschirm hinzufügen, dort öffnen und dort koppeln.
page-studio-cannot-keep = Bei wenig Platz kann das Handy Gespeichertes löschen. Nach jeder Charge bald verbinden.
page-studio-cannot-speak = Vorlesen geht nicht.
page-studio-cannot-ring = Klingeln geht nicht.
page-studio-because-insecure = Grund: Die Seite ist über einfaches http geöffnet.
page-studio-because-lacking = Grund: Dieser Browser kann es nicht.
page-studio-because-not-installed = Grund: Sie ist nicht auf dem Home-Bildschirm.
page-studio-because-no-promise = Grund: Der Browser hat das Speichern nicht zugesagt.

## Am Arbeitstisch

page-studio-bench = Am Arbeitstisch
page-studio-colours = Farben
page-studio-day = Tag
page-studio-night = Nacht
page-studio-weighing = Wiegen
page-studio-dry = Trocken genug für dich
page-studio-dry-constant = Gewicht bleibt gleich: { $mass } je Gramm und Stunde
page-studio-dry-own = Dein Maß: { $mass } je Gramm und Stunde
page-studio-ring = Klingeln, wenn etwas fertig oder spät ist
page-studio-speech = Jeden Schritt vorlesen

## Klingelt es?

page-studio-ring-open = Es klingelt, solange diese Seite offen und der Bildschirm an ist.
page-studio-ring-dark-apple = Bei dunklem Bildschirm oder anderer App davor klingelt nichts.
page-studio-ring-dark = Bei dunklem Bildschirm oder anderer App davor klingelt es spät oder nicht.
page-studio-ring-calendar = Bei langer Wartezeit die Termine in den Kalender legen: „Der Tag“ öffnen.
page-studio-iphone = Auf iPhone oder iPad
page-studio-iphone-install = Zuerst einrichten: in Safari „Teilen“, dann „Zum Home-Bildschirm“.
page-studio-iphone-pair = Vom Home-Bildschirm öffnen und dort koppeln. Die Chargen in Safari sind andere.
page-studio-iphone-lock = Beim Arbeiten: Einstellungen, Anzeige & Helligkeit, Automatische Sperre, Nie.
page-studio-iphone-silent = Stummschalter aus. Ab iOS 16.4 klingelt es auch stumm.
page-studio-ring-test = Klingeln testen

## Chargen, Geld und Etiketten

page-studio-own = Chargen, Geld und Etiketten
page-studio-pattern = Chargennummern nach diesem Muster
page-studio-pattern-says = { $fields }; { $mark } und { $number } hat jedes Handy für sich. So kommt keine Nummer doppelt.
page-studio-currency = Währung
page-studio-rate = Eine Stunde Handarbeit
page-studio-wrap = Verpackung je Stück, wo keine Karte auch „wrap“ heißt
page-studio-no-tax = Vorsteuer kommt zurück
page-studio-cost-more = Weitere Kosten, und ein Preis
page-studio-cost-packaging_cost = Verpackung je Stück
page-studio-cost-sprays_cost = Ungewogenes je Charge
page-studio-cost-overhead_cost = Gemeinkosten je Charge
page-studio-cost-cleaning_minutes = Minuten zum Reinigen je Charge
page-studio-cost-labelling_seconds = Sekunden zum Etikettieren je Stück
page-studio-cost-fee_percent = Gebühren, Prozent vom Preis
page-studio-cost-fee_each = Gebühr je verkauftem Stück
page-studio-cost-margin_percent = Marge, Prozent vom Preis ohne Steuer
page-studio-cost-tax_percent = Steuer auf den Preis, Prozent
page-studio-before = Fragen vor dem ersten Wiegen
page-studio-maker = Name und Anschrift für Etiketten
page-studio-label-width = Etikettbreite, mm
page-studio-label-height = Etiketthöhe, mm
page-studio-market = Verkauft in
page-studio-market-name = { $market ->
    [us] USA
    [uk] Vereinigtes Königreich
   *[eu] EU
}
page-studio-opened = Haltbar nach dem Öffnen, Monate
page-studio-save = Einstellungen speichern
page-studio-saved = Gespeichert.
page-studio-makers = Das ändert nur ein Hersteller.

## Der Server

page-studio-server = Verbindung zum Server
page-studio-not-let-in = Verbunden, aber ohne Zutritt für dieses Handy.
page-studio-asking = Verbindung wird gesucht…
page-studio-online = Verbunden.
page-studio-heard = Letzte Verbindung { $at }.
page-studio-not-heard = Noch nicht verbunden.
page-studio-unsent = { $count ->
    [0] Alles ist gesendet.
   *[other] { $count } noch nicht gesendet.
}
page-studio-try = Jetzt versuchen
page-studio-leap = { $way ->
    [forward] Die Uhr des Servers wurde { $length } vorgestellt.
   *[back] Die Uhr des Servers wurde { $length } zurückgestellt.
}
page-studio-leap-timers = Laufende Timer behalten ihre Zeit.
page-studio-newer = Eine neuere Seite ist da. Keine Charge geht verloren.
page-studio-newer-use = Verwenden

## Vom Server abgelehnt

page-studio-refused = Vom Server abgelehnt
page-studio-refused-stay = Das bleibt auf diesem Handy.
page-studio-refused-photo = Ein Foto
page-studio-refused-batch = Die Charge selbst
page-studio-send-again = Noch einmal senden
page-studio-send-all = Alle noch einmal senden
page-studio-set-aside = Beiseitelegen

## Dieses Handy und die Werkstatt

page-studio-phone = Dieses Handy und die Werkstatt
page-studio-you = Du
page-studio-address = Adresse
page-studio-certificate = Zertifikat
page-studio-copies = Sicherungen
page-studio-clock = Uhr des Servers
page-studio-clock-wrong = Falsch
page-studio-who-unknown = Ohne Verbindung nicht bekannt
page-studio-who = { $role ->
    [maker] { $name }, Hersteller
   *[helper] { $name }, Hilfe: macht Chargen
}
page-studio-who-here = Hersteller, am Computer der Werkstatt. Für Handys mit { $option } starten.
page-studio-trusted = https, von diesem Handy anerkannt
page-studio-not-trusted = Von diesem Handy nicht anerkannt
page-studio-plain-http = Einfaches http
page-studio-needs = Ohne Netz arbeiten, Bildschirm anlassen und einrichten: nur mit https.
page-studio-open-https = Die https-Adresse der Werkstatt öffnen. Ihr Computer zeigt sie an.
page-studio-trust = Zuerst die einfache Seite öffnen, die der Computer für neue Handys zeigt. Ihren Schritten folgen, um das Zertifikat anzuerkennen. Dann die Werkstatt neu öffnen.
page-studio-good-until = Gültig bis { $at }
page-studio-not-renewed = Es müsste längst erneuert sein. Am Computer der Werkstatt nachsehen.
page-studio-no-copy = Noch keine Sicherung
page-studio-copy = Letzte Sicherung { $at }
page-studio-read-back = { $how ->
    [whole] ganz zurückgelesen
    [partly] teils zurückgelesen
   *[unread] noch nicht zurückgelesen
}
page-studio-entries = { $count ->
    [one] { $count } Eintrag
   *[other] { $count } Einträge
}
page-studio-copy-failed = Der letzte Versuch schlug fehl: { $why }
page-studio-copy-stopped = Es wird nicht mehr gesichert. Am Computer der Werkstatt nachsehen.
page-studio-copy-again = Es wird von selbst wieder versucht.

## Ohne Zutritt

page-studio-door = An der Tür
page-studio-shut-unpaired = Dieses Handy ist nicht mit der Werkstatt gekoppelt. Chargen hier gehen weiter und sind hier gespeichert. Gekoppelt wird alles gesendet. Den Code gibt ein Gerät mit der Rolle Hersteller oder der Computer der Werkstatt.
page-studio-shut-out = Dieses Handy ist aus der Werkstatt ausgesperrt. Chargen hier gehen weiter und sind hier gespeichert. Ein Hersteller kann einen neuen Code geben. Dann Ungesendetes ansehen: noch einmal senden oder beiseitelegen.
page-studio-pair = Dieses Handy koppeln

## Zum Mitnehmen

page-studio-take = Zum Mitnehmen
page-studio-take-says = Alles auf diesem Handy in einer Datei: Chargen mit allen Einträgen und der Vorrat.
page-studio-take-phone = Speichern, was auf diesem Handy ist
page-studio-take-server = Alles vom Server speichern

## Wer Zutritt hat. role: maker oder helper

page-studio-devices = Wer Zutritt hat
page-studio-makers-may = Hersteller ändern Rezepte und Ausrüstung, sehen Kosten und geben Zutritt.
page-studio-helpers-may = Wer hilft, macht Chargen. Kosten, Rezepte und Ausrüstung sind gesperrt.
page-studio-pair-device = { $role ->
    [helper] Handy als Hilfe koppeln
   *[maker] Handy als Hersteller koppeln
}
page-studio-qr = Adresse mit Code, für die Kamera eines Handys
page-studio-code-away = Code ausblenden
page-studio-code-how = Kamera des neuen Handys auf das Quadrat richten. Öffnen, was sie zeigt. Oder dort { $address } öffnen und den Code eintippen.
page-studio-code-left = Gilt für ein Handy, noch { $left }
page-studio-code-over = Der Code ist abgelaufen. Einen neuen machen, wenn das Handy da ist.
page-studio-paired = { $name } ist gekoppelt.
page-studio-name = Name
page-studio-rename = Umbenennen
page-studio-device = { $seen ->
    [this] { $role ->
        [maker] Hersteller, dieses Handy
       *[helper] Hilfe, dieses Handy
    }
    [now] { $role ->
        [maker] Hersteller, gerade hier
       *[helper] Hilfe, gerade hier
    }
   *[at] { $role ->
        [maker] Hersteller, zuletzt { $at }
       *[helper] Hilfe, zuletzt { $at }
    }
}
page-studio-make = { $role ->
    [maker] Zum Hersteller machen
   *[helper] Zur Hilfe machen
}
page-studio-make-title = { $role ->
    [maker] { $name }: zum Hersteller machen?
   *[helper] { $name }: zur Hilfe machen?
}
page-studio-make-do = { $role ->
    [maker] { $name }: zum Hersteller machen
   *[helper] { $name }: zur Hilfe machen
}
page-studio-helper-says = Es macht weiter Chargen. Kosten, Rezepte und Ausrüstung sind gesperrt.
page-studio-shut-out-do = Aussperren
page-studio-shut-out-title = { $name } aussperren?
page-studio-shut-out-says = Es bekommt sofort nichts mehr von der Werkstatt. Ungesendetes bleibt darauf.
page-studio-shut-out-name = { $name } aussperren
page-studio-code-maker = Code für Hersteller machen
page-studio-code-maker-title = Noch einem Hersteller Zutritt geben?
