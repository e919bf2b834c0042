# In welcher Sprache die Befehle sprechen (api/cli/spoken.py).

cli-spoken-option = In welcher Sprache: { $tags }. Sonst nach LC_ALL oder LANG, sonst Englisch.
cli-spoken-unknown = In { $value } gibt es keine Wörter. Möglich: { $tags }.
