# Files of papers (api/papers.py).

api-papers-no-pdf = Das ist kein PDF. Noch einmal als PDF speichern, dann senden.
api-papers-no-png = Das ist kein ganzes PNG-Bild. Noch einmal als PNG oder JPEG speichern.
api-papers-no-base64 = Die Datei ist kein Base64 (RFC 4648). Noch einmal exportieren.
