# `bowlside sheet`, `check`, `import`, `export`.

cli-documents-not-json = { $file } ist kein JSON: { $why }.
cli-documents-nothing = In dieser Werkstatt ist noch nichts. Nichts auszugeben.
cli-documents-nothing-found = { $file }: Die Prüfung findet nichts.
cli-documents-level = { $level ->
    [will_not_run] Nicht herstellbar
    [look] Ansehen
   *[know] Gut zu wissen
}
