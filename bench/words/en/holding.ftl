# What another batch has in use (bench/holding.py, frontend/bench/holding.js). by: the name of that batch.

holding-vessel = In use by { $by }: “{ $vessel }”.
holding-cavities = In use by { $by }: { $taken } of { $many } { $shape } cavities.
holding-take = Take “{ $vessel }”.
holding-empty-first = No other fits: empty it first.
holding-free = { $count } free.
holding-turn-out = Turn them out first.
