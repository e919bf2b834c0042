# `bowlside batches`, `judge`.

cli-batches-release = { $verdict ->
    [released] released
    [held] held
    [rejected] rejected
   *[none] not judged
}
cli-batches-judged = { $verdict ->
    [released] { $batch } is released.
    [held] { $batch } is held.
   *[rejected] { $batch } is rejected.
}
cli-batches-which = { $count ->
    [0] No batch has the number or id { $name }. `bowlside batches` lists them.
   *[other] { $count } batches have the number { $name }: name one by its id.
}
