# How a step went the last times (bench/last_time.py, frontend/bench/last-time.js).

# word: burst in a microwave, else heat.
last-time-bursts = { $word ->
    [burst] { $count ->
        [one] { $count } Intervall
       *[other] { $count } Intervalle
    }
   *[heat] { $count } × erhitzt
}
last-time-tries = { $count ->
    [one] { $count } Versuch
   *[other] { $count } Versuche
}

# word: what the recipe calls the end of the wait, "dry".
last-time-wait = { $word } nach { $length }
last-time-too-much = { $mass } zu viel
last-time-too-little = { $mass } zu wenig
