# Whether a piece is dry, by two weighings (bench/dryness.py, frontend/bench/dryness.js).

# constant: what the two weighings say; least: the least mass that this scale can tell it of.
dryness-says = { $constant ->
    [too_soon] Weigh it again a full hour after the first time.
    [cannot_tell] This scale cannot tell constant weight below { $least }: weigh more at once.
    [dry] Constant weight in this room’s air: at most 0.50 mg changed for each gram. A slow fizz loses weight too.
    [gains] It gains weight: the air is too moist for it.
    [slower] It loses less than 0.50 mg for each gram an hour. Weigh again in an hour.
    [unclear] Too close for this scale. Weigh more at once, or again in an hour.
   *[not_yet] Not yet: it still loses over 0.50 mg for each gram in an hour.
}
dryness-own = By your own threshold it is dry.
dryness-air = { $known ->
    [yes] The room had { $humidity } % humidity.
   *[no] Nobody read the room’s humidity.
}
