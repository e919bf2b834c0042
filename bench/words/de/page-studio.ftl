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
