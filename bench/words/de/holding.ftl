# Was eine andere Charge gerade hat (bench/holding.py, frontend/bench/holding.js). by: deren Name.

holding-vessel = In Gebrauch, { $by }: „{ $vessel }“.
holding-cavities = In Gebrauch, { $by }: { $taken } von { $many } Mulden ({ $shape }).
holding-take = Nimm „{ $vessel }“.
holding-empty-first = Nichts anderes passt: erst leeren.
holding-free = { $count } frei.
holding-turn-out = Erst aus der Form nehmen.
