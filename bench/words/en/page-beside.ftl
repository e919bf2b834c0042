# What stands beside a step at the bench (frontend/parts/beside.js).

page-beside-piece = Piece { $number }:
page-beside-last = Last time: { $what }.
page-beside-before = Before: { $what }.
page-beside-usual = Your { $count } batches, the middle half: { $what }.
page-beside-range = { $low } to { $high }

# word: burst in a microwave, else heat. high: the most of the range.
page-beside-bursts = { $word ->
    [burst] { $high ->
        [one] { $range } burst
       *[other] { $range } bursts
    }
   *[heat] { $high ->
        [one] heated { $range } time
       *[other] heated { $range } times
    }
}
page-beside-tries = { $high ->
    [one] { $range } try
   *[other] { $range } tries
}
page-beside-wait = ready after { $range }
