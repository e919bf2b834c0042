# Das eigene Muster für Chargennummern (bench/batch_number.py, frontend/bench/batch-number.js). token: ein Name in Klammern.

batch-number-length = Ein Muster hat 1 bis 60 Zeichen.
batch-number-unknown = „{ $written }“ ist hier unbekannt. Möglich: { $could }.
batch-number-characters = Zwischen den Klammern nur Buchstaben, Ziffern, Leerzeichen und . / # _ - nehmen.
batch-number-needed = { $token } ergänzen. Sonst könnten zwei Geräte ohne Verbindung eine Nummer doppelt vergeben.
batch-number-beside = { $token } mit - oder Leerzeichen von dem daneben trennen.
batch-number-day = „{ $written }“ ist kein Tag wie 2026-11-25.
batch-number-mark = Das Zeichen eines Geräts: 1 bis 4 Großbuchstaben, A bis Z.
batch-number-count = Die Zählung eines Geräts beginnt bei 1.
