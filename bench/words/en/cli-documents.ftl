# `bowlside sheet`, `check`, `import`, `export`.

cli-documents-not-json = { $file } is not JSON: { $why }.
cli-documents-nothing = Nothing is in this studio yet. Nothing to export.
cli-documents-nothing-found = { $file }: the check finds nothing.
cli-documents-level = { $level ->
    [will_not_run] Cannot be made
    [look] Look at this
   *[know] Good to know
}
