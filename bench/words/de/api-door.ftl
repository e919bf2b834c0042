# Die Tür: wer hereindarf und wie oft (api/door).


## Wer nicht hereinkommt

api-door-problem-unpaired = Dieses Gerät ist nicht mit der Werkstatt gekoppelt. /pair öffnen, mit einem Code vom Gerät eines Herstellers.
api-door-problem-shut-out = Dieses Gerät wurde ausgesperrt. Einen Hersteller um einen neuen Code bitten, dann /pair öffnen.
api-door-problem-maker-only = Das darf nur das Gerät eines Herstellers. Dieses gehört zu „wer hilft“. Einen Hersteller fragen oder die Rolle ändern lassen.
api-door-confirm = { $role ->
    [maker] Das gibt einem Gerät die Rechte eines Herstellers. confirm mit derselben Rolle senden.
   *[helper] Das gibt einem Gerät die Rechte einer Hilfe. confirm mit derselben Rolle senden.
}
api-door-last-maker = Das ist das einzige Gerät eines Herstellers. Erst ein anderes als Hersteller koppeln. Oder auf dem Rechner der Werkstatt: `bowlside shut-out`.
api-door-other-name = Das ist kein Name dieses Servers. Gehört er der Werkstatt? Dann in BOWLSIDE_HOSTS ergänzen und neu starten.
api-door-other-site = Das kam von der Seite einer anderen Website. Die Werkstatt unter ihrer eigenen Adresse öffnen und dort tun.
api-door-anothers-id = Dieser Gerätename gehört zu: { $name }. Von dort senden oder unter dem eigenen Namen dieses Geräts.

## Wie oft

api-door-too-many = Zu viele auf einmal. In { $length } noch einmal versuchen.
api-door-budget = { $what ->
    [bytes-a-minute] Dieses Gerät hat in einer Minute 64 MB gesendet.
    [bytes-a-day] Dieses Gerät hat heute 1 GB gesendet.
    [plans-an-hour] Dieses Gerät hat in einer Stunde 120 Pläne begonnen.
    [runs-an-hour] Dieses Gerät hat in einer Stunde 120 Chargen begonnen.
   *[plans-at-once] Für dieses Gerät sind schon { $count } Pläne in Arbeit.
}
api-door-go-on = Nichts davon wurde gespeichert. In { $length } geht es weiter.

## Codes

api-door-no-pairing = Diese Werkstatt ist nur auf ihrem eigenen Rechner offen, ohne Kopplung. Um Geräte hereinzulassen: `bowlside serve --lan`.
api-door-no-code = Kein Code ist offen. Er war benutzt, zu oft vertippt oder älter als 10 min. Einen neuen holen: auf dem Gerät eines Herstellers unter Einstellungen. Oder auf dem Rechner: `bowlside pair`.
api-door-wrong-code = { $count ->
    [one] Das ist nicht der Code. Noch ein Versuch.
   *[other] Das ist nicht der Code. Noch { $count } Versuche.
}
api-door-wrong-code-too-often = Das ist nicht der Code. Abschreiben, wie er beim Hersteller steht, oder einen neuen holen.

## Die Zertifizierungsstelle

api-door-authority-begins = Die Zertifizierungsstelle der Werkstatt gilt ab { $at }. Die Uhr dieses Rechners liegt davor. Stellen.
api-door-authority-ended = Die Zertifizierungsstelle der Werkstatt galt bis { $at }. Geräte vertrauen ihr nicht mehr.
api-door-authority-ends = Die Zertifizierungsstelle der Werkstatt gilt nur bis { $at }.
api-door-authority-new = Ihren Ordner verschieben, dann entsteht eine neue. Die Geräte müssen ihr neu vertrauen.

## Die Seite zum Koppeln

api-door-page-title = Dieses Gerät mit der Werkstatt koppeln
api-door-page-heading = Dieses Gerät koppeln
api-door-page-way = Die Werkstatt lässt nur bekannte Geräte herein. Den Code macht ein Hersteller: auf einem gekoppelten Gerät unter Einstellungen. Oder auf dem Rechner der Werkstatt: `bowlside pair`.
api-door-page-install-first = Auf iPhone oder iPad: erst installieren, dann koppeln.
api-door-page-install = In Safari: Teilen, dann „Zum Home-Bildschirm“. Bowlside von dort öffnen und den Code dort eingeben. Die installierte Seite hat eigene Daten: Koppeln in Safari zählt nicht.
api-door-page-code = Code
api-door-page-about-code = 8 Buchstaben und Ziffern, für ein Gerät und 10 min. Der Buchstabe O zählt als Null.
api-door-page-name = Name dieses Geräts
api-door-page-about-name = So steht es im Chargenprotokoll, etwa „Tablet an der Schüssel“.
api-door-page-pair = Koppeln
api-door-page-too-late = Code zu alt? Einen neuen holen. Auf diesem Gerät geht durch Warten nichts verloren.
api-door-page-paired = Schon gekoppelt: Werkstatt öffnen

## Die Seite vor der Tür: Menüs heißen, wie das Gerät sie nennt

api-door-landing-title = Dieser Werkstatt vertrauen
api-door-landing-heading = Dieses Gerät soll der Werkstatt vertrauen
api-door-landing-why = Ohne Netz arbeiten, Bildschirm bleibt an. Für beides muss der Browser diesem Rechner vertrauen. Dazu kommt einmal ein Zertifikat auf dieses Gerät.
api-door-landing-state = Die Schritte unten sind nur einmal nötig. Danach öffnen:
api-door-landing-untrusted = Dieses Gerät vertraut der Werkstatt noch nicht. Die Schritte unten sind nur einmal nötig.
api-door-landing-trusted = Dieses Gerät vertraut der Werkstatt.
api-door-landing-open = Werkstatt öffnen
api-door-landing-fetch = Zertifikat holen
api-door-landing-compare = Fingerabdruck vergleichen
api-door-landing-compare-why = Er steht dort, wo Bowlside gestartet wurde. Auch dieses Gerät zeigt ihn, als SHA-256 des Zertifikats. Weichen sie ab, aufhören: jemand anders antwortet.
api-door-landing-tell = Vertrauen einstellen
api-door-landing-menus = Menüs unterscheiden sich etwas je nach Version. Nach diesen Wörtern suchen.
api-door-landing-android-search = In den Einstellungen nach „CA-Zertifikat“ suchen. Es steht unter Sicherheit, Verschlüsselung & Anmeldedaten, Zertifikat installieren.
api-door-landing-android-install = „Trotzdem installieren“ wählen, dann die geholte Datei.
api-door-landing-android-open = Die Werkstatt im Browser des Geräts öffnen.
api-door-landing-apple-fetch = In Safari holen und das Profil erlauben. Liegt es in „Dateien“, dort antippen.
api-door-landing-apple-install = Einstellungen, „Profil geladen“ (oder Allgemein, VPN & Geräteverwaltung): Installieren.
api-door-landing-apple-trust = Einstellungen, Allgemein, Info, „Zertifikatsvertrauenseinstellungen“: einschalten. Ohne diesen letzten Schalter ändert sich nichts.
api-door-landing-apple-home = Vor dem Koppeln installieren: Werkstatt in Safari öffnen, „Teilen“, „Zum Home-Bildschirm“. Von dort öffnen und dort koppeln.
api-door-landing-windows-open = Datei öffnen und „Zertifikat installieren“ wählen, für den aktuellen Benutzer.
api-door-landing-windows-place = Ablegen in „Vertrauenswürdige Stammzertifizierungsstellen“, nicht am vorgeschlagenen Ort.
api-door-landing-mac-open = Datei öffnen: die Schlüsselbundverwaltung nimmt sie in den Schlüsselbund „Anmeldung“.
api-door-landing-mac-trust = Dort öffnen und unter „Vertrauen“ Immer vertrauen wählen.
api-door-landing-chromium = Chromium: Einstellungen, Datenschutz und Sicherheit, Sicherheit, „Zertifikate verwalten“. Als vertrauenswürdig importieren.
api-door-landing-firefox = Firefox: Einstellungen, Datenschutz & Sicherheit, „Zertifikate anzeigen“, Zertifizierungsstellen. Für Websites importieren.
api-door-landing-vouches = Es bürgt nur für die Namen dieses Rechners und für Adressen im Haus. Für eine Seite im Internet bürgt es nie. Um das Vertrauen zurückzunehmen, dort wieder entfernen.
api-door-landing-code = { $address } als QR-Code
api-door-landing-nothing-else = Hier ist nur die Seite vor der Tür: /
