# How a step went the last times (bench/last_time.py, frontend/bench/last-time.js).

# word: burst in a microwave, else heat.
last-time-bursts = { $word ->
    [burst] { $count ->
        [one] { $count } burst
       *[other] { $count } bursts
    }
   *[heat] { $count ->
        [one] heated { $count } time
       *[other] heated { $count } times
    }
}
last-time-tries = { $count ->
    [one] { $count } try
   *[other] { $count } tries
}

# word: what the recipe calls the end of the wait, "dry".
last-time-wait = { $word } after { $length }
last-time-too-much = { $mass } too much
last-time-too-little = { $mass } too little
