# Eine Woche planen von dem aus, was gebraucht wird.

week-nothing-wanted = Angeben, was gebraucht wird und bis wann.
week-too-many-wants = Höchstens { $most } Zeilen auf einmal angeben. Hier sind es { $count }.
week-want-past = Dieser Zeitpunkt ist vorbei. Einen späteren wählen.
week-no-size = „{ $title }“ geht mit dieser Ausstattung und diesen Zeiten nicht. Die Werkbank länger öffnen oder kleiner ansetzen.
week-no-hours = Vor dem letzten Termin ist die Werkbank nie frei. Angeben, wann sie es ist.
