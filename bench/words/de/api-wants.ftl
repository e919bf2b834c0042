# Der Auftrag: was bis wann gebraucht wird (api/wants.py).

api-wants-no-outlet = Diesen Abnehmer gibt es hier nicht. Einen aus der Liste wählen oder keinen.
api-wants-another = Diese Zeile des Auftrags lautet hier anders. Hier ändern.
