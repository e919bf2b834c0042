# Die Sprache selbst, und ihre Wahl.

language-name = Deutsch (noch nicht überall)
language-choice = Sprache
language-as-phone = Wie das Handy
language-needs-connection = Keine Verbindung. Die Sprache wechselt, sobald es wieder geht.
