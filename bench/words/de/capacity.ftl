# Dass in ein Gefäß mehr kommt, als es oder seine Waage fasst (bench/capacity.py, frontend/bench/capacity.js).

capacity-holds = { $mass } kommen hinein. { $vessel } fasst { $most }.
capacity-weighs = { $mass } mit { $vessel }. { $scale } wiegt bis { $most }.
capacity-take = Stattdessen: { $vessel }.
capacity-weigh-on = Wiegen auf: { $scale }.
