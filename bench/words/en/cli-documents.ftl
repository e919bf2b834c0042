# `bowlside sheet`, `import`, `export`.

cli-documents-not-json = { $file } is not JSON: { $why }.
cli-documents-nothing = Nothing is in this studio yet. Nothing to export.
