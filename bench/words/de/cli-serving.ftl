# `bowlside serve`.

cli-serving-to-machine = nur dieser Rechner
cli-serving-to-proxy = der Proxy, für gekoppelte Geräte
cli-serving-to-network = gekoppelte Geräte in diesem Netz

## Wo sie ist

cli-serving-at = Bowlside ist unter { $address } ({ $to }). Strg+C beendet es.
cli-serving-trust-at = So lernt ein Gerät, ihr zu vertrauen: { $address }
cli-serving-fingerprint = Der Fingerabdruck des Zertifikats muss dort sein
cli-serving-left-out = { $host } bleibt außen vor: die Zertifizierungsstelle gilt dafür nicht. Den Ordner { $folder } verschieben, dann entsteht eine neue. Die Geräte müssen ihr neu vertrauen.
cli-serving-pair = Um ein Gerät hereinzulassen: `bowlside pair`.

## Warum es nicht geht

cli-serving-two-ways = --lan und --behind-proxy öffnen die Werkstatt auf zwei Arten: eine wählen.
cli-serving-listen-alone = --listen gehört zu --lan oder --behind-proxy. Sonst wird nur diesem Rechner geantwortet.
cli-serving-listen-address = --listen braucht eine Adresse dieses Rechners, in Zahlen: { $address } ist keine.
cli-serving-proxy-needs = --behind-proxy braucht BOWLSIDE_PROXIES: wie viele Proxys davorstehen (meist 1). Und BOWLSIDE_HOSTS: den Namen, unter dem Geräte die Werkstatt erreichen.
cli-serving-clock = Die Uhr dieses Rechners geht Jahre nach: kein Gerät würde ihm vertrauen. Stellen, dann neu starten.
cli-serving-no-such-address = Lauschen auf { $address } geht nicht: diese Adresse hat der Rechner nicht.
cli-serving-cannot-listen = Lauschen geht nicht: { $why }. Mit --port einen anderen Port nennen. 0 nimmt einen freien.
