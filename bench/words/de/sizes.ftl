# Wie groß eine Charge ist (bench/sheet/sizes.py, frontend/bench/sheet/sizes.js). many: Stücke, wie das Rezept sie
# nennt; pieces: mit ihrer Anzahl.

sizes-by-mass = { $count } { $many } zu { $each } ergeben { $mass }
sizes-by-mass-most = { $count } { $many } zu { $each } ergeben { $mass }, mehr fasst eine Charge nicht
sizes-by-moulds = { $moulds } × { $held } Mulden ergeben { $count } { $many }
sizes-by-mix = { $part }: { $mass } ergeben { $pieces }
sizes-most = { $count } { $many }, mehr fasst eine Charge nicht
sizes-runs-out = { $pieces }; zuerst aus: { $name }
sizes-kit-takes = { $pieces }; mehr fasst die Ausrüstung nicht

## Geht nicht

sizes-too-light = Eins davon wiegt { $mass }. Mindestens so viel angeben.
sizes-no-mould = Keine Form der Ausrüstung passt zu „{ $part }“. Eine ergänzen oder die Größe nach Stück wählen.
sizes-few-moulds = So viele Formen ergeben kein ganzes Stück. Mehr davon füllen.
sizes-little-mix = { $part }: ein Stück braucht { $mass }. Mindestens so viel angeben.
sizes-part = „{ $part }“ ist kein Teil, der gewogen wird. Möglich: { $could }.
sizes-no-part = „{ $part }“ ist kein Teil, der gewogen wird. Die Größe nach Stück wählen.
sizes-no-ingredient = Die Zutat „{ $name }“ steht nicht im Rezept.
sizes-unweighed = { $name } wird hier nicht gewogen und bestimmt keine Größe.
sizes-too-little = Nicht genug für ein Stück: { $name }.
sizes-out-of-range = Eine Charge hat 1 bis { $most } Stück; { $count } geht nicht. Eine kleinere Charge machen, oder mehrere.
sizes-waits-for-itself = „{ $title }“ müsste auf einen späteren Durchgang von sich selbst warten. Weniger Stücke machen oder größere Formen und Gefäße nehmen.
