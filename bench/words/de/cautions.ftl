# Die üblichen Hinweise, gezeigt vor dem Handgriff. Der erste Satzteil steht allein, wo einer schon gelesen wurde:
# höchstens sechs Wörter. Daneben steht, woher er kommt.

# Quelle: veröffentlichte Tabellen für heißes Wasser von 140 °F nennen 5 bis 6 s; die kürzere Zeit steht hier.
cautions-hot_soap = Geschmolzene Seife klebt und brennt: { -at-60 } können in etwa 5 s tief verbrennen. Ärmel herunter, kaltes Wasser bereit.
# Quelle: übliche Praxis.
cautions-hot_fat = An heißem Fett verbrennt man sich. Es kann sich entzünden: kleine Hitze, nie allein lassen, kein Wasser in die Nähe.
# Quelle: Zitronensäure: H319 und H335 in Verordnung (EU) 2021/849; P261 auf Datenblättern der Lieferanten.
cautions-powder = Feines Pulver reizt Augen und Lunge. Tief und langsam kippen, Maske auf, kein Ventilator am Arbeitstisch.
# Quelle: 2-Propanol, IEC 60079-20-1:2010.
cautions-alcohol = Alkoholdampf entzündet sich leicht: Flammpunkt bei { -at-12 }. Wärmequellen und Flammen aus, Fenster auf.
# Quelle: übliche Praxis; örtliche Vorschriften für Elektrik gelten.
cautions-wet_sockets = Nasse Hände weg vom Strom. Vor Stecker, Schalter oder Mixer abtrocknen.
# Quelle: US FDA, Verbraucherseite zu überhitztem Wasser, 28.11.2007.
cautions-superheated = Flüssiges aus der Mikrowelle kann überkochen, beim Bewegen oder Umrühren. Kurze Intervalle, vor dem Herausnehmen warten.
# Quelle: übliche Praxis; die Anleitung des Mixers gilt.
cautions-mixer = Mixer aus, Stecker ziehen: erst dann mit Fingern oder Spatel an den Rührbesen.
# Quelle: übliche Praxis.
cautions-slippery = Verschüttetes Öl oder Seife ist glatt. Aufwischen, bevor du etwas trägst.
