# Eine Woche planen von dem aus, was gebraucht wird.

week-nothing-wanted = Angeben, was gebraucht wird und bis wann.
week-too-many-wants = Höchstens { $most } Zeilen auf einmal angeben. Hier sind es { $count }.
week-want-past = Dieser Zeitpunkt ist vorbei. Einen späteren wählen.
week-no-size = „{ $title }“ geht mit dieser Ausstattung und diesen Zeiten nicht. Die Werkbank länger öffnen oder kleiner ansetzen.
week-no-hours = Vor dem letzten Termin ist die Werkbank nie frei. Angeben, wann sie es ist.

## Wie gut der Plan einer Woche ist

week-says-met = Alles wird rechtzeitig fertig, in { $batches ->
    [one] { $batches } Charge
   *[other] { $batches } Chargen
}.
week-says-nothing = Nichts herzustellen.
week-says-fewest = Weniger reichen nicht.
week-says-short = { $short ->
    [one] { $short } Stück fehlt.
   *[other] { $short } Stück fehlen.
}
week-says-no-better = Kein Plan mit diesen Größen lässt weniger fehlen.
week-says-at-least = Mindestens { $least } fehlen, was man auch tut.
week-says-by-rule = Eine einfache Regel hat diesen Plan gemacht. Es kann einen besseren geben.
