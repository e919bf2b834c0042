# `bowlside sheet`, `import`, `export`.

cli-documents-not-json = { $file } ist kein JSON: { $why }.
cli-documents-nothing = In dieser Werkstatt ist noch nichts. Nichts auszugeben.
