# Wie eine Zutat gekauft wird (frontend/parts/supply-forms.js). name: wie ihre Karte es hat.

page-supply-title = Einkauf: { $name }
page-supply-pack = In einer Packung
page-supply-lead = Tage bis zur Lieferung
page-supply-price = Preis der Packung
page-supply-again = Nachbestellen bei
page-supply-again-hint = 2 kg
page-supply-again-why = Leer gelassen, folgt es aus deinem Verbrauch und diesen Tagen.
page-supply-due = Kommt am
page-supply-need-pack = Schreib, was in der Packung ist: der Preis gilt dafür.
page-supply-need-days = Schreib ganze Tage, 0 bis 366.
