# In welcher Sprache die Befehle sprechen (api/cli/spoken.py).

cli-spoken-option = In welcher Sprache: { $tags }. Sonst nach LC_ALL oder LANG, sonst Englisch.
cli-spoken-unknown = In { $value } gibt es keine Wörter. Möglich: { $tags }.
cli-spoken-no-option = Die Option { $name } gibt es nicht. --help zeigt alle.
cli-spoken-no-command = Den Befehl „{ $name }“ gibt es nicht. Möglich: { $names }.
cli-spoken-needs-value = Hinter { $name } fehlt ein Wert.
cli-spoken-takes-no-value = { $name } nimmt keinen Wert. Bitte weglassen.
cli-spoken-missing = { $name } fehlt. Bitte angeben.
cli-spoken-too-many = Das ist ein Wort zu viel. --help zeigt, was möglich ist.
cli-spoken-bad-value = { $name } nimmt „{ $value }“ nicht. { $takes }
cli-spoken-one-of = Möglich: { $names }.
cli-spoken-from-to = Eine ganze Zahl von { $least } bis { $most } angeben.
cli-spoken-whole = Eine ganze Zahl ab 1 angeben.
cli-spoken-day = Einen Tag angeben, etwa 2026-03-31.
cli-spoken-file = Eine Datei angeben.
