# `bowlside batches`, `judge`.

cli-batches-release = { $verdict ->
    [released] freigegeben
    [held] gesperrt
    [rejected] verworfen
   *[none] nicht beurteilt
}
cli-batches-judged = { $verdict ->
    [released] { $batch } ist freigegeben.
    [held] { $batch } ist gesperrt.
   *[rejected] { $batch } ist verworfen.
}
cli-batches-which = { $count ->
    [0] Keine Charge hat die Nummer oder id { $name }. `bowlside batches` zeigt alle.
   *[other] { $count } Chargen haben die Nummer { $name }: eine mit ihrer id nennen.
}
