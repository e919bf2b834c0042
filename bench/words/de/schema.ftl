# Was nicht in die veröffentlichte Form eines Dokuments passt (bench/schema_words.py), und doppelte ids.

schema-missing = „{ $name }“ fehlt. Ergänzen.
schema-unknown = „{ $name }“ ist hier unbekannt. Möglich: { $could }.
schema-too-long = { $count } Zeichen; höchstens { $most }. Kürzen.
schema-empty = Hier steht nichts. Etwas schreiben.
schema-too-many = { $count } stehen hier; höchstens { $most }.
schema-too-few = Zu wenige; mindestens { $least }.
schema-too-small = { $written } ist zu klein; mindestens { $least }.
schema-too-large = { $written } ist zu groß; höchstens { $most }.
schema-not-an-id = „{ $written }“ passt nicht. Kleinbuchstaben, Ziffern und _, vorn ein Buchstabe.
schema-not-this = Hier sollte „{ $wanted }“ stehen.
schema-type = { $type ->
    [object] Hier sollte ein Objekt stehen.
    [array] Hier sollte eine Liste stehen.
    [string] Hier sollte Text stehen.
    [integer] Hier sollte eine ganze Zahl stehen, ohne Punkt.
    [number] Hier sollte eine Zahl stehen.
    [boolean] Hier sollte true oder false stehen.
   *[other] Das ist von anderer Art, als es sein sollte.
}
schema-misfit = Das passt nicht in die veröffentlichte Form.
schema-half-character = Ein Text enthält ein halbes Zeichen, das nichts anzeigen kann. Neu schreiben.
schema-used-twice = { $kind ->
    [line] „{ $id }“ steht zweimal. Jeder Zeile eine eigene id geben.
    [step] „{ $id }“ steht zweimal. Jedem Schritt eine eigene id geben.
    [way] „{ $id }“ steht zweimal. Jedem Weg eine eigene id geben.
    [portion] „{ $id }“ steht zweimal. Jeder Portion eine eigene id geben.
    [part] „{ $id }“ steht zweimal. Jedem Teil eine eigene id geben.
   *[thing] „{ $id }“ steht zweimal. Jedem eine eigene id geben.
}
