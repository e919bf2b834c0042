# That more goes into a vessel than it or its scale takes (bench/capacity.py, frontend/bench/capacity.js).

capacity-holds = { $mass } goes in. { $vessel } holds { $most }.
capacity-weighs = { $mass } with { $vessel }. { $scale } weighs up to { $most }.
capacity-take = Take { $vessel }.
capacity-weigh-on = Weigh on { $scale }.
