# What stands beside a step at the bench (frontend/parts/beside.js).

page-beside-piece = Stück { $number }:
page-beside-last = Letztes Mal: { $what }.
page-beside-before = Davor: { $what }.
page-beside-usual = Deine { $count } Chargen, die mittlere Hälfte: { $what }.
page-beside-range = { $low } bis { $high }

# word: burst in a microwave, else heat. high: the most of the range.
page-beside-bursts = { $word ->
    [burst] { $high ->
        [one] { $range } Intervall
       *[other] { $range } Intervalle
    }
   *[heat] { $range } × erhitzt
}
page-beside-tries = { $high ->
    [one] { $range } Versuch
   *[other] { $range } Versuche
}
page-beside-wait = fertig nach { $range }
