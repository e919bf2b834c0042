# Was an einer Ausrüstung nicht stimmt (bench/kit.py, bench/weighing.py, frontend/bench/weighing.js).

kit-no-scale = Zur Ausrüstung gehört keine Waage, und dieses Rezept wird gewogen. Eine Waage mit Höchstlast und Teilung ergänzen.
kit-division-too-fine = Feiner als 1 mg geht es hier nicht. 0,001 g oder mehr schreiben.
kit-capacity-too-small = Eine Waage zeigt mindestens hundert Teilungen. Höchstlast und Teilung prüfen.
