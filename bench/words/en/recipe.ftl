# What is wrong with a recipe as it was written (bench/recipe, bench/steps, frontend/bench/draft.js).

recipe-lye = A recipe that uses lye is outside this tool. Soap from lye needs its own training, protection and calculation. Use a ready-made base here.
recipe-chlorine = A chlorine releaser and an acid make chlorine gas. This recipe is refused: leave one of them out.

## Ingredients and lines

recipe-not-a-share = “{ $written }” is no share by mass, above 0 % and up to 100 %. Write it as 68 %.
recipe-no-ingredient = There is no ingredient “{ $name }”. It could be { $could }.
recipe-per-cents-no-room = The per cents add up to { $share }. Together they must leave room for the rest.
recipe-per-cents-short = The per cents add up to { $share }, not 100 %.
recipe-parts-beside-weights = Parts stand beside weights. Say what one part is: add “part”, such as 100 g.
recipe-no-bound = A range needs its least, its most or both. Add one.
recipe-bounds-crossed = { $least } is more than { $most }. Swap them.
recipe-no-ph = “{ $written }” is no pH from 0 to 14. Write it as 5.5.
recipe-no-mass = Parts and per cents alone have no mass. Say what a piece weighs, or what one part is.
recipe-too-heavy = Together these are more than ten tonnes. Check the units.
recipe-tolerance-too-fine = A tolerance below 0.01 % can't be weighed at a bench. Write 0.01 % or more.
recipe-substitute-amount = Write a substitute's amount as a mass, a volume or a count.

## Parts, and what joins them

recipe-assembly-name = “assembly” is kept for the joining at the end. Choose another name.
recipe-no-assembly = A recipe of several parts needs an assembly that joins them.
recipe-no-part = There is no part “{ $part }”. It could be { $could }.
recipe-taken-twice = “{ $part }” is taken twice. Take it once and give its count.
recipe-not-taken = Nothing takes the part “{ $part }”. Add it, or delete it.
recipe-piece-too-light = A piece below 1 mg can't be weighed. Write 0.001 g or more.
recipe-all-stays-behind = More stays behind than the lines give. Lower “stays_behind”, or say what a piece weighs.

## Steps

recipe-no-step = There is no step “{ $step }”. Write a step's id, or part.step.
recipe-after-itself = “{ $step }” can't come after itself.
recipe-circle = These steps wait for each other in a circle: { $steps }. Remove one “after”.
recipe-not-weighed = No step weighs “{ $line }”. Name it in a weigh step's lines.
recipe-weighed-twice = “{ $line }” is weighed twice, here and in “{ $step }”.
recipe-no-line = There is no line “{ $line }”. It could be { $could }.
recipe-no-lines = There is no line “{ $line }”. This part has no lines.
recipe-no-wait = There is no wait “{ $step }” in this part. It could be { $could }.
recipe-no-waits = There is no wait “{ $step }” in this part. Write the wait as a step of its own.
recipe-tipped-into-itself = “{ $vessel }” can't be tipped into itself. Say which vessel it goes into.
recipe-no-portion = There is no portion “{ $portion }”. A split step must make it.
recipe-portion-is-whole = “{ $portion }” is what is divided. Give each portion an id of its own.
recipe-divided-two-ways = Divide by shares or by masses, not both.
recipe-no-turn = That gives no turn: the wait usually lasts { $usual }. Write less than that.
recipe-too-many-turns = That gives { $count } turns: the wait usually lasts { $usual }. At most { $most } turns fit.
recipe-wait-backwards = A wait's times go forwards: earliest, then usual, then latest.
