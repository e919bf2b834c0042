# In wie vielen Durchgängen ein Teil entsteht, und was kein Durchgang fasst (bench/sizing.py, frontend/bench/sizing.js).

sizing-piece-too-big = { $name }: { $piece } je Stück, die größte Mulde ({ $shape }) fasst { $held }. Größere Form oder kleineres Stück nehmen.
sizing-too-heavy = { $name }: mehr als zehn Tonnen. Weniger Stück machen.

## vessel: seine Art, wie Rezept und Ausrüstung sie schreiben

sizing-one-too-big = { $vessel ->
    [bowl] { $name }: ein Stück braucht { $piece }, die größte Schüssel auf ihrer Waage fasst { $room }. Größere Schüssel oder Waage oder kleineres Stück nehmen.
    [jug] { $name }: ein Stück braucht { $piece }, der größte Becher auf seiner Waage fasst { $room }. Größeren Becher oder Waage oder kleineres Stück nehmen.
    *[other] { $name }: ein Stück braucht { $piece }, das größte Gefäß auf seiner Waage fasst { $room }. Größeres Gefäß oder Waage oder kleineres Stück nehmen.
    }
sizing-too-many-rounds = { $name }: { $count } Stück brauchen mehr als { $most } Durchgänge. Grund: { $why }. Weniger Stück machen, oder größere Formen und Gefäße nehmen.
