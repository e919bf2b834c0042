# How big a batch is (bench/sheet/sizes.py, frontend/bench/sheet/sizes.js). many: pieces, as the recipe calls them;
# pieces: with their count.

sizes-by-mass = { $count } { $many } of { $each } make { $mass }
sizes-by-mass-most = { $count } { $many } of { $each } make { $mass }, the most in one batch
sizes-by-moulds = { $moulds } × { $held } cavities give { $count } { $many }
sizes-by-mix = { $part }: { $mass } gives { $pieces }
sizes-most = { $count } { $many }, the most in one batch
sizes-runs-out = { $pieces }; { $name } is used up first
sizes-kit-takes = { $pieces }; the kit takes no more

## Cannot be

sizes-too-light = One of these weighs { $mass }. Ask for at least that much.
sizes-no-mould = No mould in the kit fits “{ $part }”. Add one, or size by pieces.
sizes-few-moulds = That many moulds do not give one whole piece. Fill more of them.
sizes-little-mix = { $part }: one piece takes { $mass }. Ask with at least that much.
sizes-part = “{ $part }” is not a part that is weighed. It could be { $could }.
sizes-no-part = “{ $part }” is not a part that is weighed. Size by pieces.
sizes-no-ingredient = The recipe has no ingredient “{ $name }”.
sizes-unweighed = { $name } is not weighed in this recipe, so it sets no size.
sizes-too-little = Not enough for one piece: { $name }.
sizes-out-of-range = A batch has from 1 to { $most } pieces; { $count } is not. Make a smaller batch, or several.
sizes-waits-for-itself = “{ $title }” would wait for a later round of itself. Make fewer pieces, or use larger moulds and vessels.
