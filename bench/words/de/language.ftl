# Die Sprache selbst und die Einheiten, und ihre Wahl.

language-name = Deutsch
language-choice = Sprache
language-as-phone = Wie das Handy
language-needs-connection = Keine Verbindung. Die Sprache wechselt, sobald es wieder geht.

language-masses = Massen
language-masses-g = Gramm (g)
language-masses-oz = Unzen und Pfund (oz, lb)
language-temperatures = Temperaturen
