# Klingelt es? (frontend/parts/ring-state.js)

page-ring-will = Es klingelt.
page-ring-may-not = Vielleicht klingelt es nicht.
page-ring-sound = Ton
page-ring-sound-on = an
page-ring-sound-off = aus. Oben anhaken.
page-ring-browser = Browser
page-ring-browser-can = lässt die Seite klingeln
page-ring-browser-not-yet = gibt noch keinen Ton. Seite antippen.
page-ring-switch = Stummschalter
page-ring-switch-unknown = für die Seite unsichtbar, wie die Lautstärke. Klingeln testen.
page-ring-screen = Bildschirm
page-ring-screen-dark = kann ausgehen. Die automatische Sperre auf „Nie“ stellen.
page-ring-screen-on = bleibt an, solange etwas läuft
page-ring-clock = Uhr
page-ring-clock-sure = mit dem Server abgeglichen
page-ring-clock-unsure = nicht abgeglichen: noch keine Verbindung. Timer laufen trotzdem.
