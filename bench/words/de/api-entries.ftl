# Was nicht ins Journal kommt, Eintrag für Eintrag (api/journals.py, api/rules.py).

api-entries-other-content = Ein anderer Eintrag hat diese Kennung schon, und Einträge ändern sich nie. Mit neuer Kennung senden.
api-entries-shape = Ein Eintrag ist ein JSON-Objekt mit id, run, device, at, kind und body.
api-entries-too-long = Dieser Eintrag ist { $size } Bytes lang. Höchstens { $most }. Kürzer schreiben.
api-entries-other-run = Der Eintrag nennt eine andere Charge als die Adresse. An seine eigene senden.

## Zeit

api-entries-ahead = Das liegt mehr als einen Tag vor der Uhr des Servers: { $at }. Uhr und Datum des Geräts prüfen, dann die des Servers.
api-entries-before-batch = Das liegt vor dem Beginn der Charge. Uhr und Datum des Geräts prüfen, dann noch einmal senden.
api-entries-before-signing = Das liegt vor der Unterschrift. Uhr und Datum des Geräts prüfen, dann noch einmal senden.

## Unterschreiben

api-entries-signings = Zu viele Unterschriften auf einmal. Diese allein noch einmal senden.
api-entries-signed = Unterschrieben am { $at }: { $name }. Ein Hersteller kann das rückgängig machen. Dann noch einmal unterschreiben.
api-entries-signing-undone = Diese Unterschrift wurde schon rückgängig gemacht. Noch einmal unterschreiben.
api-entries-signing-missing = { $count ->
    [one] Ein genannter Eintrag fehlt hier. Erst diesen senden, dann noch einmal unterschreiben.
   *[other] { $count } der genannten Einträge fehlen hier. Erst diese senden, dann noch einmal unterschreiben.
}
api-entries-signing-digest = Die Prüfsumme gehört nicht zu den genannten Einträgen. Neu lesen, dann noch einmal unterschreiben.
api-entries-stays-undone = Eine rückgängig gemachte Unterschrift bleibt es. Stattdessen neu unterschreiben.
api-entries-undo-by-maker = Nur das Gerät eines Herstellers kann eine Unterschrift rückgängig machen. Einen Hersteller fragen.
api-entries-judged-by-maker = Nur das Gerät eines Herstellers beurteilt. Dort nachfragen.
api-entries-judgement-stays = Ein Urteil bleibt stehen. Ein weiteres eintragen.
api-entries-release-unsigned = Freigegeben wird ein unterschriebenes Protokoll, wie es jetzt ist. Unterschreiben, dann freigeben.

## Wiegen

api-entries-mg-missing = „mg“ fehlt. In ganzen Milligramm angeben, wie viel hineinkam: { $name }.
