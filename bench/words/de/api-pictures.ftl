# Bilder einer Charge (api/pictures.py).

api-pictures-title = Das Bild stimmt nicht
api-pictures-send-jpeg = Ein JPEG als image/jpeg senden. Ein Papier auch als PDF oder PNG: application/pdf, image/png.
api-pictures-no-entry = Kein Eintrag nennt dieses Bild. Erst den Eintrag senden, dann das Bild.
api-pictures-another = Der Eintrag nennt ein anderes Bild: dessen SHA-256 ist anders. Jenes senden.
api-pictures-broken = Das ist kein ganzes JPEG-Bild. Noch einmal aufnehmen oder als JPEG speichern.
api-pictures-more-after = Nach dem Ende des Bilds kommt noch etwas. Noch einmal speichern, nur als Bild.
api-pictures-more-beside = Das Bild enthält mehr als sich selbst, etwa Ort und Zeit der Aufnahme. Ohne diese Daten (Exif) speichern, dann senden.
api-pictures-too-many-pixels = { $wide } × { $high } Pixel. Höchstens 50 Millionen passen. Verkleinern.
