# Einen Code mit der Kamera lesen (frontend/parts/scanner.js).

page-scanner-sees = Was die Kamera sieht
page-scanner-hold = Den Code vor die Kamera halten.
page-scanner-no-camera = Keine Kamera ({ $why }). Zurückgehen und den Code eintippen.
