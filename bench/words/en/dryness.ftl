# Whether a piece is dry, by two weighings (bench/dryness.py, frontend/bench/dryness.js).

# constant: what the two weighings say; least: the least mass that this scale can tell it of.
dryness-says = { $constant ->
    [too_soon] Weigh it again a full hour after the first time.
    [cannot_tell] This scale cannot tell constant weight below { $least }: weigh more at once.
    [dry] Dry to constant weight: at most 0.50 mg changed for each gram in an hour.
    [gains] It gains weight: the air is too moist for it.
   *[not_yet] Not yet: it still loses over 0.50 mg for each gram in an hour.
}
dryness-own = By your own threshold it is dry.
