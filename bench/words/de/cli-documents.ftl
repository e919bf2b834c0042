# `bowlside sheet`, `import`, `export`.

cli-documents-not-json = { $file } ist kein JSON in UTF-8: { $why }.
cli-documents-nothing = In dieser Werkstatt ist noch nichts. Nichts auszugeben.
