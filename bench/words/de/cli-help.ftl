# Was `bowlside --help` zu Befehlen und Optionen sagt.

cli-help-usage = Aufruf:
cli-help-options = Optionen
cli-help-commands = Befehle
cli-help-help = Diese Hilfe zeigen.
cli-help-version = Die Version zeigen.
cli-help-database = Die SQLite-Datei. Sonst BOWLSIDE_DATABASE, sonst var/bowlside.sqlite3.

## Befehle

cli-help-main = Begleiter am Arbeitstisch: was jetzt zu tun ist, wie viel, und jede Wartezeit zugleich.
cli-help-serve = Seite und API anbieten: nur diesem Rechner, wenn nichts anderes gesagt ist.
cli-help-check = Ein Rezept prüfen: was falsch, seltsam oder gut zu wissen ist.
cli-help-sheet = Ein Rezept in einer Größe drucken: sein Blatt, als Text.
cli-help-import = Eine Werkstatt, ein Rezept oder eine Ausrüstung einlesen. Fügt hinzu, überschreibt nie. Andere können währenddessen schreiben. Abgebrochen? Noch einmal einlesen: was schon da ist, wird übersprungen.
cli-help-export = Die ganze Werkstatt als ein JSON schreiben, nach FILE oder zur Standardausgabe.
cli-help-pair = Einen Code machen, der ein Gerät hereinlässt, 10 min lang.
cli-help-devices = Die gekoppelten Geräte zeigen und wann sie zuletzt da waren.
cli-help-shut-out = Ein Gerät aussperren, nach Name oder Kennung, auch das einzige eines Herstellers.
cli-help-audit = Zeigen, was mit der Werkstatt geschah, von wem und wann: das Neueste zuerst.
cli-help-batches = Die Chargen auflisten, die neueste zuerst, und wie jede beurteilt wurde.
cli-help-judge = Eine Charge freigeben, sperren oder verwerfen, mit ihrer Nummer oder id. Ein weiteres Urteil berichtigt es, und alle bleiben.
cli-help-backup = Alles in eine neue Datei FILE sichern, ob die Werkstatt offen ist oder nicht.
cli-help-verify = Eine Sicherung auslegen wie zum Zurückholen und sagen, ob alles brauchbar ist.
cli-help-restore = Eine Sicherung zurückholen. Was da ist, wird ersetzt und vorher gesichert.
cli-help-move = Die Werkstatt in eine leere Datenbank umziehen. TO ist eine SQLite-Datei oder eine Adresse postgresql://. Was am alten Ort liegt, bleibt lesbar. Gespeichert wird dort nichts mehr.
cli-help-copies-key = Einen Schlüssel für Sicherungen machen: FILE öffnet sie, seine öffentliche Hälfte verschlüsselt sie.

## Optionen

cli-help-port = Sonst BOWLSIDE_PORT, sonst 8420. 0 nimmt einen freien.
cli-help-port-of-server = Der Port des Servers. Sonst BOWLSIDE_PORT, sonst 8420.
cli-help-demo = Eine leere Datenbank mit der Beispielwerkstatt füllen.
cli-help-lan = Die Werkstatt für gekoppelte Geräte in diesem Netz öffnen, mit TLS.
cli-help-landing-port = Mit --lan: die Seite, die sagt, wie man ihr vertraut.
cli-help-listen = Mit --lan oder --behind-proxy: nur auf dieser Adresse lauschen.
cli-help-behind-proxy = Gekoppelte Geräte kommen über einen Proxy (so viele wie BOWLSIDE_PROXIES).
cli-help-workers = Wie viele Prozesse antworten. Sonst BOWLSIDE_WORKERS, sonst 1.
cli-help-pieces = Wie viele Stück diese Charge geben soll.
cli-help-kit = Eine Datei mit der Ausrüstung. Ohne sie: eine Küchenwaage, 5 kg, Teilung 1 g.
cli-help-findings-json = Für ein Programm: die Funde als kanonisches JSON.
cli-help-json = Für ein Programm: das Blatt als kanonisches JSON.
cli-help-new = Erst eine Werkstatt anlegen, wo keine ist.
cli-help-replace = Eine vorhandene Datei überschreiben.
cli-help-helper = Für ein Gerät, das Chargen macht, aber Rezepte und Ausrüstung nicht ändert.
cli-help-what = Nur, was von einer Art geschah, etwa paired oder restored.
cli-help-since = Nur ab diesem Tag, in UTC.
cli-help-most = Wie viele Zeilen. Sonst 100.
cli-help-release = Nur die so beurteilten. none: noch nicht beurteilt.
cli-help-name = Wer beurteilt.
cli-help-why = Warum. Gesperrt oder verworfen braucht einen Grund.
cli-help-identity = Die Schlüsseldatei, die eine verschlüsselte Sicherung öffnet (bowlside copies-key).
cli-help-yes = Nicht fragen, ob ersetzt werden soll, was da ist.
cli-help-anyway = Auch zurückholen, was diese Version nicht lesen kann.
cli-help-from = Eine SQLite-Datei oder eine Adresse postgresql://. Sonst die der Einstellungen.
cli-help-to = Dasselbe wie TO.
cli-help-back = Den Ort, den eine Werkstatt verließ, wieder zur Werkstatt machen.
