# Zustände, die sich nicht halten (bench/states.py sagt, wie lange): was auf dem Spiel steht, und was hilft, wenn es zu
# spät ist. Übliche Praxis, außer wo eine Quelle dabeisteht.

states-stake-melted_base = Wird in etwa 5 min fest: erst eine Haut, dann ein Klumpen.
states-stake-warm_fat = Wird in etwa 15 min trüb und fest.
states-stake-wetted_fizz = Trocknet und bröckelt in etwa 30 min, in trockener Luft früher.
states-stake-whipped_base = Fällt zusammen und trocknet in etwa 30 min.
states-stake-beaten_topping = Wird in etwa 20 min steif und lässt sich nicht mehr spritzen.
states-stake-piped_top = In etwa 10 min bildet sich eine Haut.
states-stake-first_layer = Ist in etwa 25 min kalt, dann trennen sich die Schichten.
states-stake-unwrapped = Zieht Wasser: bei 40 % Feuchte in Tagen, bei 70 % in Stunden.
states-source = { $state ->
    [unwrapped] ASTM D5032 (Glycerin und Feuchte); die Stunden sind übliche Praxis
   *[other] übliche Praxis
}
states-rescue-melted_base = Kurz erhitzen, dann umrühren. Jedes Mal geht Wasser verloren: höchstens zweimal.
states-rescue-warm_fat = Zurück ins Wasserbad, bis es klar ist.
states-rescue-wetted_fizz = Leicht über die ganze Fläche sprühen und einarbeiten.
states-rescue-whipped_base = Noch einmal schlagen, dann erst weitermachen.
states-rescue-beaten_topping = Mit dem Messer verstreichen, wo es sich nicht mehr spritzen lässt.
states-rescue-piped_top = Die Haut mit Alkohol besprühen, dann einsetzen.
states-rescue-first_layer = Einritzen, anwärmen und mit Alkohol besprühen. Es hält weniger fest.
states-rescue-unwrapped = Tau abtupfen, in bewegter Luft trocknen lassen, dann einpacken.
states-too-wet = Nicht weiter sprühen. Dünn ausbreiten, ab und zu wenden.
