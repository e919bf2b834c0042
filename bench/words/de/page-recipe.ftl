# Was ein Rezept beim Schreiben sagt: Bildschirm, Felder, Bild, Zusammenführen und Klartext.

## Speichern

page-recipe-new = Neues Rezept
page-recipe-save = Fassung speichern
page-recipe-copy = Kopie anlegen
page-recipe-drop = Diesen Entwurf verwerfen
page-recipe-drop-says = Deine Änderungen sind dann weg. Die gespeicherte Fassung bleibt.
page-recipe-drop-new-says = Dieses Rezept hat noch keine Fassung. Alles davon ist dann weg.
page-recipe-drop-yes = Verwerfen
page-recipe-saving = Wird gespeichert…
page-recipe-saved = Auf diesem Handy gespeichert.
page-recipe-saved-version = Gespeichert als Fassung { $version }.
page-recipe-waits = Keine Verbindung. Auf diesem Handy gespeichert, wird später gesendet.
page-recipe-unchanged = Nichts geändert seit der letzten Fassung.
page-recipe-not-saved = Noch nicht als Fassung gespeichert. Das markierte Feld richtigstellen.
page-recipe-go-to-it = Dorthin
page-recipe-now-at = { $name }: jetzt { $place } von { $count }.
page-recipe-removed = Entfernt: { $name }. Rückgängig holt es zurück.

## Das Blatt

page-recipe-itself = Das Rezept
page-recipe-more-about = Mehr dazu
page-recipe-from-text = Aus Klartext
page-recipe-add-part = Teil hinzufügen
page-recipe-a-part = Ein Teil
page-recipe-part-more = Reserve, Verlust, Form
page-recipe-joining = Zusammensetzen
page-recipe-takes = { $name }: wie viele in einem
page-recipe-takes-unnamed = Dieser Teil: wie viele in einem
page-recipe-as-written = { $mass } wie geschrieben
page-recipe-a-piece = { $mass } je Stück
page-recipe-needed = { $mass } nötig
page-recipe-goes-in = Was hineinkommt
page-recipe-add-line = Zutat hinzufügen
page-recipe-details = Einzelheiten
page-recipe-about = Zu: { $name }
page-recipe-whole = Das ganze Rezept
page-recipe-in-all = { $mass } zusammen.
page-recipe-in-all-and-piece = { $mass } zusammen, { $piece } je fertiges Stück.
page-recipe-part-word = Sagen, was ein Anteil wiegt

## Ein neuer Name

page-recipe-renamed = Es ist „{ $name }“ unter neuem Namen. Was dazu geschrieben ist, bleibt.
page-recipe-is-another = Es ist eine andere Zutat
page-recipe-used-elsewhere = „{ $name }“ kommt auch anderswo vor und behält dort den Namen. Hier ist es eine neue Zutat.
page-recipe-rename-all = Überall umbenennen
page-recipe-that-is-right = Das stimmt

## Schritte

page-recipe-steps = Was zu tun ist
page-recipe-add-step = Schritt hinzufügen
page-recipe-more = Mehr
page-recipe-move-to = Verschieben nach
page-recipe-how-and-more = Wie, und mehr
page-recipe-about-time = etwa { $length }
page-recipe-usually = { $earliest }, üblich { $usual }
page-recipe-within = innerhalb von { $length }
page-recipe-after-all = Alles, was hergestellt wird
page-recipe-after-before = Der Schritt davor
page-recipe-after-nothing = Nichts: kann gleich beginnen
page-recipe-after-these = Hier gewählte Schritte
page-recipe-kind-weigh = Abwiegen
page-recipe-kind-do = Tun
page-recipe-kind-melt = Schmelzen
page-recipe-kind-split = Teilen
page-recipe-kind-check = Prüfen
page-recipe-kind-pieces = Stücke
page-recipe-kind-wait = Warten
page-recipe-kind-turn = Wenden

## Was eine Menge ergibt

page-recipe-as-needed = Nach Bedarf.
page-recipe-about-mass = etwa { $mass }
page-recipe-a-drop = 1/20 mL je Tropfen (Konvention von UCUM: Tropfer verschieden)
page-recipe-parts-no-mass = Anteile haben noch keine Masse. Sagen, was ein Anteil oder ein Stück wiegt.
page-recipe-density = Dichte { $density } g/mL
page-recipe-density-source = Dichte { $density } g/mL ({ $source })
page-recipe-no-density = ohne Dichte: bleibt bei Löffeln
page-recipe-of-part = { $share } des Teils
page-recipe-of-piece = { $share } des Stücks
page-recipe-of-whole = { $share } vom Ganzen

## Was nicht lesbar ist, soweit es die Seite selbst sieht

page-recipe-fault-count = Sagen, für wie viele Stück es geschrieben ist: eine ganze Zahl wie 12.
page-recipe-fault-tiny-piece = Ein Stück unter 1 mg ist nicht wägbar. Mindestens { $least } schreiben.
page-recipe-fault-per-cents = { $share } zusammen: zu viel. Die Prozente müssen Platz für den Rest lassen.
page-recipe-fault-part-word = Anteile stehen neben Gewichten. Sagen, was ein Anteil wiegt, etwa 100 g.
page-recipe-fault-no-mass = Anteile und Prozente allein haben keine Masse. Sagen, was ein Stück oder ein Anteil wiegt.

## Die Rezeptprüfung

page-recipe-check = Rezeptprüfung
page-recipe-check-begins = Die Prüfung beginnt, sobald etwas geschrieben ist.
page-recipe-checking = Wird geprüft…
page-recipe-unread = Noch nicht lesbar
page-recipe-level-will-not-run = Nicht herstellbar
page-recipe-level-look = Ansehen
page-recipe-level-know = Gut zu wissen
page-recipe-no-findings = Nichts gefunden nach den Regeln dieser Prüfung. Es gelten die Papiere der Lieferanten.
page-recipe-go-there = Dorthin
page-recipe-air = Luft heute
page-recipe-air-temperature = Temperatur, °C
page-recipe-air-humidity = Luftfeuchte, %
page-recipe-line = Zeile { $count }
page-recipe-number = Nummer { $count }

## Die Änderung von jemand anderem

page-recipe-changed = Jemand hat dieses Rezept geändert
page-recipe-changed-saved = Jemand hat dieses Rezept geändert. Deines ist auf diesem Handy gespeichert.
page-recipe-see-what-differs = Unterschiede ansehen
page-recipe-theirs-is = Fassung { $version } ist die andere und gespeichert. Deine ist auf diesem Handy als Entwurf gespeichert.
page-recipe-asked-here = Was nur einer geändert hat, geht zusammen. Was beide geändert haben, wird hier gefragt.
page-recipe-no-clash = Nichts haben beide geändert, also geht beides zusammen.
page-recipe-it-was = Vorher: { $was }
page-recipe-was = vorher { $was }
page-recipe-whose-theirs = Die andere
page-recipe-whose-mine = Deine
page-recipe-whose-both = Beide
page-recipe-together = Was zusammengeht
page-recipe-save-both = Beides zusammen speichern
page-recipe-save-as-new = Deine als neues Rezept speichern
page-recipe-second = { $title } (zweites)
page-recipe-take-theirs = Die andere nehmen, deine verwerfen
page-recipe-pick-first = Zuerst eine wählen: { $where }.
page-recipe-quoted = „{ $title }“
page-recipe-order = Reihenfolge
page-recipe-nothing = nichts
page-recipe-yes = ja
page-recipe-no = nein

## Das Bild

page-recipe-picture-begins = Das Bild beginnt mit dem ersten Schritt.
page-recipe-picture-wait = warten

## Felder

page-recipe-not-said = Nicht angegeben
page-recipe-choose-yes = Ja
page-recipe-choose-no = Nein
page-recipe-no-choices = Noch nichts zu wählen.
page-recipe-row-add-substitute = Ersatz hinzufügen
page-recipe-row-add-allergen = Allergen hinzufügen
page-recipe-row-add-portion = Portion hinzufügen
page-recipe-row-add-way = Art hinzufügen
page-recipe-row-remove-substitute = Diesen Ersatz entfernen
page-recipe-row-remove-allergen = Dieses Allergen entfernen
page-recipe-row-remove-portion = Diese Portion entfernen
page-recipe-row-remove-way = Diese Art entfernen
page-recipe-unnamed = noch ohne Namen
page-recipe-move = Verschieben: { $name }
page-recipe-drag = Ziehen oder Pfeiltasten
page-recipe-remove = Entfernen
page-recipe-remove-it = Entfernen: { $name }
page-recipe-go-up = Nach oben: { $name }
page-recipe-go-down = Nach unten: { $name }

## Wie ein Feld heißt

page-recipe-field-use = Wofür ist es?
page-recipe-field-sold-in = Wo wird es verkauft?
page-recipe-not-sold = Wird nicht verkauft
page-recipe-field-title = Titel
page-recipe-field-written-for = Geschrieben für, Stück
page-recipe-field-one = Eines heißt
page-recipe-field-many = Mehrere heißen
page-recipe-field-measures = Löffel und Tassen
page-recipe-field-summary = Kurz gesagt
page-recipe-field-stays-on = Bleibt auf der Haut
page-recipe-field-asks-air = Fragt nach der Raumluft
page-recipe-field-looks-like-food = Mit Essen zu verwechseln
page-recipe-field-keeps-months = Hält ungeöffnet so viele Monate
page-recipe-field-good-mass-least = Ein gutes Stück wiegt mindestens
page-recipe-field-good-mass-most = Ein gutes Stück wiegt höchstens
page-recipe-field-good-ph-least = Sein pH ist mindestens
page-recipe-field-good-ph-most = Sein pH ist höchstens
page-recipe-field-good-look = Wie ein gutes Stück aussieht
page-recipe-field-good-set = Wie es fest geworden ist
page-recipe-field-good-judge = Am Ende beurteilt, mit Kommas getrennt
page-recipe-field-before = Fragen vor dem ersten Wiegen
page-recipe-field-components = Teile
page-recipe-field-part-name = Name dieses Teils
page-recipe-field-weighs = Eines wiegt
page-recipe-field-spares = Reservestücke
page-recipe-field-stays-behind = Bleibt in der Schüssel
page-recipe-field-loss = Verlust beim Herstellen
page-recipe-field-one-part = Ein Anteil wiegt
page-recipe-field-made-in = Hergestellt in
page-recipe-field-mould = Art der Form
page-recipe-field-mould-held = Bleibt in der Form bis zum Herausnehmen
page-recipe-field-lines = Zutaten
page-recipe-field-ingredient = Zutat
page-recipe-field-amount = Menge
page-recipe-field-tolerance = Darf abweichen um
page-recipe-field-note = Notiz
page-recipe-field-second-look = Jemand anderes sieht nach
page-recipe-field-left-out = Darf fehlen
page-recipe-field-instead = Stattdessen
page-recipe-field-other-amount = Menge, wenn eine andere
page-recipe-field-what-changes = Was sich ändert
page-recipe-field-changes-method = Ändert die Arbeitsweise
page-recipe-field-ingredients = Zutaten
page-recipe-field-ingredient-name = Name, überall im Rezept
page-recipe-field-kind = Was es ist
page-recipe-field-density = Dichte, g/mL
page-recipe-field-density-source = Dichte laut
page-recipe-field-density-tapped = Stampfdichte
page-recipe-field-active = Wirkstoffanteil
page-recipe-field-inci = INCI-Name
page-recipe-field-most-warm = Nicht über, °C
page-recipe-field-cautions = Hinweise
page-recipe-field-form = Es ist
page-recipe-field-limit = Grenze laut IFRA-Zertifikat
page-recipe-field-category = Für Kategorie
page-recipe-field-allergens = Genannte Allergene
page-recipe-field-name = Name
page-recipe-field-of-fragrance = Anteil am Duftstoff
page-recipe-field-steps = Schritte
page-recipe-field-step-title = Was zu tun ist
page-recipe-field-step-kind = Art des Schritts
page-recipe-field-after = Kommt nach
page-recipe-field-these-steps = Diese Schritte
page-recipe-field-how = Wie
page-recipe-field-within = Muss folgen innerhalb von
page-recipe-field-or-else = Sonst
page-recipe-field-if-missed = Wenn verpasst
page-recipe-field-counted-from = Gezählt ab
page-recipe-field-hands = Braucht deine Hände für
page-recipe-field-does = Was dabei geschieht
page-recipe-field-tools = Werkzeuge, mit Komma getrennt
page-recipe-field-caution = Vorsicht
page-recipe-field-reason = Warum
page-recipe-field-usual-cautions = Übliche Hinweise
page-recipe-field-ways = Arten, es zu tun
page-recipe-field-skipped = Darf übersprungen werden
page-recipe-field-weigh-in = Einwiegen
page-recipe-field-into = In
page-recipe-field-takes-about = Dauert etwa
page-recipe-field-works-on = Womit
page-recipe-field-tip-in = Hineingeben: Becher mit Namen
page-recipe-field-melt-these = Schmelzen
page-recipe-field-melt-with = In
page-recipe-field-heat-for = Erhitzen für
page-recipe-field-until = Bis
page-recipe-field-last-time-for = Zuletzt für
page-recipe-field-then-rest = Dann ruhen
page-recipe-field-from-warm = Von, °C
page-recipe-field-to-warm = Bis, °C
page-recipe-field-portions = Portionen
page-recipe-field-shares = Anteile
page-recipe-field-or-mass = Oder Masse
page-recipe-field-out-of = Aus
page-recipe-field-ask = Frage
page-recipe-field-if-so = Wenn ja, sagt der Knopf
page-recipe-field-not-yet = Wenn noch nicht
page-recipe-field-too-far = Wenn zu weit
page-recipe-field-leave-for = Wenn zu weit, stehen lassen für
page-recipe-field-each-is = Jedes wird
page-recipe-field-asked-after = Frage nach jedem
page-recipe-field-one-by-one = Einzeln zählen
page-recipe-field-small-pieces = Kleine Stücke zählen
page-recipe-field-from-portions = Aus Portionen
page-recipe-field-wait-until = Warten, bis es so ist
page-recipe-field-earliest = Frühestens
page-recipe-field-usual = Üblich
page-recipe-field-latest = Spätestens
page-recipe-field-how-to-tell = Woran zu erkennen
page-recipe-field-left-longer = Wenn es länger steht
page-recipe-field-every = Alle
page-recipe-field-during = Solange dies läuft
page-recipe-field-each-then = Jedes ist dann
page-recipe-field-takes = Was hineingehört
page-recipe-field-count = Wie viele in einem

## Beispiele in leeren Feldern

page-recipe-example-bar = Stück
page-recipe-example-bars = Stücke
page-recipe-example-dome = Kuppel
page-recipe-example-sheet = Datenblatt
page-recipe-example-microwave = Mikrowelle
page-recipe-example-pressed = gepresst
page-recipe-example-dry = trocken
page-recipe-example-turned = gewendet

## Was zur Wahl steht

page-recipe-choice-measures-metric = Metrisch
page-recipe-choice-measures-us = US
page-recipe-choice-measures-imperial = Britisch
page-recipe-choice-vessel-bowl = Schüssel
page-recipe-choice-vessel-jug = Becher
page-recipe-choice-vessel-cup = Becherchen
page-recipe-choice-vessel-pan = Topf
page-recipe-choice-vessel-bag = Beutel
page-recipe-choice-hazard-alcohol = Alkohol
page-recipe-choice-hazard-hot-fat = Heiße Butter, heißes Öl
page-recipe-choice-hazard-hot-soap = Heiße Seife
page-recipe-choice-hazard-mixer = Rührgerät
page-recipe-choice-hazard-powder = Pulver
page-recipe-choice-hazard-slippery = Rutschig
page-recipe-choice-hazard-superheated = Kann überkochen
page-recipe-choice-hazard-wet-sockets = Nasse Hände am Strom
page-recipe-choice-does-grind = mahlen
page-recipe-choice-does-sift = sieben
page-recipe-choice-does-mix = mischen
page-recipe-choice-does-wipe = abwischen
page-recipe-choice-does-whip = aufschlagen
page-recipe-choice-does-colour = färben
page-recipe-choice-does-spray = besprühen
page-recipe-choice-does-press = pressen
page-recipe-choice-does-pour = gießen
page-recipe-choice-does-pipe = aufspritzen
page-recipe-choice-does-unmould = aus der Form nehmen
page-recipe-choice-does-join = zusammensetzen
page-recipe-choice-does-sprinkle = bestreuen
page-recipe-choice-does-wrap = einpacken
page-recipe-choice-does-label = etikettieren
page-recipe-choice-kind-acid = Säure
page-recipe-choice-kind-carbonate = Carbonat
page-recipe-choice-kind-humectant = Feuchthalter
page-recipe-choice-kind-preservative = Konservierer
page-recipe-choice-kind-wax = Wachs
page-recipe-choice-kind-alcohol = Alkohol
page-recipe-choice-kind-bicarbonate = Natron
page-recipe-choice-kind-botanical = Pflanzliches
page-recipe-choice-kind-butter = Butter
page-recipe-choice-kind-citric-acid = Zitronensäure
page-recipe-choice-kind-dye = Farbstoff
page-recipe-choice-kind-fragrance = Duftstoff
page-recipe-choice-kind-lake = Farblack
page-recipe-choice-kind-mica = Mica
page-recipe-choice-kind-oil = Öl
page-recipe-choice-kind-pigment = Pigment
page-recipe-choice-kind-powder = Pulver
page-recipe-choice-kind-salt = Salz
page-recipe-choice-kind-soap-base = Schmelzbasis
page-recipe-choice-kind-solubiliser = Lösungsvermittler
page-recipe-choice-kind-surfactant = Tensid
page-recipe-choice-kind-water = Wasser
page-recipe-choice-kind-whipping-base = Schlagbasis
page-recipe-choice-kind-other = anderes
page-recipe-choice-form-anhydrous = wasserfrei
page-recipe-choice-form-monohydrate = Monohydrat

## Klartext

page-recipe-taken-unread = Nicht verstanden
page-recipe-taken-title = Der Titel
page-recipe-taken-part = Ein Teil
page-recipe-taken-line = Eine Zutat
page-recipe-taken-step = Ein Schritt
page-recipe-text = Zutaten und Schritte, je eine Zeile
page-recipe-text-one = Zitronensäure 240 g
page-recipe-text-two = 480 g Natron
page-recipe-text-three = 1. Sieben und mischen
page-recipe-text-read = Lesen
page-recipe-text-put = Ins Rezept übernehmen
page-recipe-text-left = Noch { $open } von { $count } zu bestätigen oder zu verwerfen.
page-recipe-text-settled = Alles geklärt. Im Rezept steht noch nichts.
page-recipe-text-what = Sagen, was das ist, oder verwerfen.
page-recipe-text-no-words = Den Text schreiben.
page-recipe-text-no-part = Sagen, in welchen Teil es gehört.
page-recipe-text-range = „{ $said }“ ist eine Spanne. Eine Menge schreiben, oder „nach Bedarf“.
page-recipe-text-vague = „{ $said }“ ist kein Maß. Eine Menge schreiben, oder „nach Bedarf“.
page-recipe-text-no-amount = Keine Menge verstanden. Schreiben, oder „nach Bedarf“.
page-recipe-text-bad-amount = Menge nicht lesbar. Zahl und Einheit schreiben, etwa 240 g, oder „nach Bedarf“.
page-recipe-text-new-title = Es ersetzt den Titel „{ $title }“.
page-recipe-text-offered = Stand am Ende des Schritts davor. Hier als eigene Wartezeit.
page-recipe-text-time = Genannte Zeit: { $said }.
page-recipe-text-time-stays = Sie bleibt im Text.
page-recipe-text-time-about = Die übliche Dauer schreiben, oder weglassen.
page-recipe-text-time-earliest = Auch die früheste sagen, hier oder im Rezept.
page-recipe-text-as = Verstanden als
page-recipe-text-words = Text
page-recipe-text-part = Gehört zu
page-recipe-text-which = Welcher Teil?
page-recipe-text-to = Zu: { $part }
page-recipe-text-to-unnamed = Zum Teil ohne Namen
page-recipe-text-drop = Verwerfen
