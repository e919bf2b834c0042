# Was eine andere Fassung eines Rezepts geändert hat (bench/versions.py).

## Wo

versions-recipe = Das Rezept
versions-assembly = Zusammenbau
versions-ingredient = Zutat { $name }
versions-in-part = { $part }, { $name }
versions-quoted = „{ $title }“

## Was

versions-added = neu
versions-added-part = neu, ein eigener Teil
versions-step-added = neu, ein Schritt
versions-line-added = neu, { $amount }
versions-removed = entfernt
versions-removed-part = entfernt, der ganze Teil
versions-step-removed = entfernt, ein Schritt
versions-line-removed = entfernt, war { $amount }
versions-moved-first = an den Anfang gestellt
versions-moved-behind = steht jetzt nach { $name }
versions-no-lines = weiter ohne Zeilen, anders geschrieben

## Ein Feld

versions-field-new = { $field }: { $now }, vorher keine Angabe
versions-field-new-long = { $field }: neu
versions-field-gone = { $field }: entfernt, war { $was }
versions-field-gone-long = { $field }: entfernt
versions-field-rewritten = { $field }: neu geschrieben
versions-field-changed = { $field }: { $now }, war { $was }
versions-changed = { $now }, war { $was }
versions-yes = ja
versions-no = nein
versions-nothing = nichts

## Wie ein Feld heißt

versions-name-about = dauert etwa
versions-name-active = Wirkstoffanteil
versions-name-after = kommt nach
versions-name-again = Frage nach jedem
versions-name-allergens = Allergene
versions-name-amount = Menge
versions-name-ask = Frage
versions-name-assembly = Zusammenbau
versions-name-burst = Erhitzen
versions-name-category = Kategorie
versions-name-caution = eigener Hinweis
versions-name-changes_method = ändert das Vorgehen
versions-name-component = Teil
versions-name-components = Teile
versions-name-count = Anzahl
versions-name-density = Dichte
versions-name-do = was hilft
versions-name-does = was geschieht
versions-name-during = währenddessen
versions-name-earliest = frühestens
versions-name-every = alle
versions-name-form = Form
versions-name-format = Format
versions-name-fragrance = Duftstoff
versions-name-from = von
versions-name-from_c = von °C
versions-name-g_per_ml = g/ml
versions-name-hands = Handarbeit
versions-name-hazards = Hinweise
versions-name-heat = Wärme
versions-name-heater = Wärmequelle
versions-name-held = bleibt in der Form
versions-name-id = id
versions-name-inci = INCI-Name
versions-name-ingredient = Zutat
versions-name-ingredients = Zutaten
versions-name-into = kommt in
versions-name-kind = Art
versions-name-last_burst = letztes Erhitzen
versions-name-latent_j_per_kg = Schmelzwärme, J/kg
versions-name-latest = spätestens
versions-name-limit = Grenze
versions-name-lines = Zeilen
versions-name-liquid_j_per_kg_k = Wärme flüssig, J/(kg K)
versions-name-look_for = worauf zu achten ist
versions-name-looks_like_food = sieht aus wie Essbares
versions-name-loss = Schwund
versions-name-many = mehrere
versions-name-mass = Masse
versions-name-measures = Maße
versions-name-melts_c = schmilzt bei °C
versions-name-most_c = höchstens, in °C
versions-name-mould = Form
versions-name-name = Name
versions-name-not_yet = wenn noch nicht
versions-name-note = Anmerkung
versions-name-of = aus
versions-name-one = eines
versions-name-one_by_one = einzeln gezählt
versions-name-optional = kann wegbleiben
versions-name-part = ein Teil
versions-name-partial = kleine Stücke zählen
versions-name-piece = ein Stück
versions-name-portions = Portionen
versions-name-reason = Grund
versions-name-rescue = was hilft, wenn es zu spät ist
versions-name-rest = ruht dazwischen
versions-name-says = Text
versions-name-shape = Form
versions-name-share = Anteil
versions-name-solid_j_per_kg_k = Wärme fest, J/(kg K)
versions-name-source = Quelle
versions-name-spares = Reserve
versions-name-stake = was auf dem Spiel steht
versions-name-stays_behind = bleibt in der Schüssel
versions-name-sold_in = verkauft in
versions-name-use = Verwendung
versions-name-stays_on = bleibt auf der Haut
versions-name-steps = Schritte
versions-name-substitutes = Ersatz
versions-name-summary = Beschreibung
versions-name-takes = ein Stück braucht
versions-name-tapped_g_per_ml = g/ml geklopft
versions-name-test = woran zu erkennen
versions-name-tips = dazu aus
versions-name-title = Titel
versions-name-to_c = bis °C
versions-name-tolerance = Toleranz
versions-name-too_far = wenn zu weit
versions-name-tools = Werkzeug
versions-name-usual = üblich
versions-name-verb = Wort auf dem Knopf
versions-name-vessel = Gefäß
versions-name-wait = stehen lassen
versions-name-ways = Wege
versions-name-window = muss bald folgen
versions-name-word = Wort für die Wartezeit
versions-name-written_for = geschrieben für
versions-name-yes = Knopf, wenn richtig
