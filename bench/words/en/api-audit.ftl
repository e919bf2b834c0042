# The audit log: what was done to the studio, after the name of who did it (api/audit.py).


## Who, where it is no device

api-audit-who-terminal = the terminal
api-audit-who-server = the server
api-audit-who-computer = this computer
api-audit-who-stranger = a stranger

## What

api-audit-code-made = { $role ->
    [maker] made a code for a maker's device
   *[helper] made a code for a helper's device
}
api-audit-code-spent = tried wrong codes from { $address }, until none was left to try
api-audit-paired = { $role ->
    [maker] was paired as a maker
   *[helper] was paired as a helper
}
api-audit-role-changed = { $role ->
    [maker] made { $name } a maker
   *[helper] made { $name } a helper
}
api-audit-renamed = renamed { $was } to { $name }
api-audit-shut-out = shut out { $name }
api-audit-settings-changed = changed the settings: { $fields }
api-audit-hours-changed = changed the bench hours
api-audit-kit-changed = changed the kit
api-audit-imported = brought in a file: { $kept } added, { $had } here already, { $refused } refused
api-audit-exported = saved everything as a file: { api-audit-batches }, { api-audit-entries }
api-audit-copied = made a copy, { $file }: { api-audit-batches }, { api-audit-entries }
api-audit-restored = restored the copy { $file }: { api-audit-batches }, { api-audit-entries }
api-audit-moved = moved the studio from { $out_of } to { $into }
api-audit-moved-back = moved the studio back from { $out_of }
api-audit-migrated = brought the tables from { $was } to { $tables }
api-audit-unsigned = undid the signature of { $name }
api-audit-bench-followed = goes on as { $was }
api-audit-outlet-erased = erased the name of an outlet
api-audit-batches = { $runs ->
    [one] { $runs } batch
   *[other] { $runs } batches
}
api-audit-entries = { $entries ->
    [one] { $entries } entry
   *[other] { $entries } entries
}

## Settings

api-audit-field-batch-number = batch numbers
api-audit-field-currency = currency
api-audit-field-hourly-rate = hourly rate
api-audit-field-wrap-cost = cost of the wrap
api-audit-field-packaging-cost = packaging
api-audit-field-sprays-cost = what goes in unweighed
api-audit-field-overhead-cost = overhead
api-audit-field-cleaning-minutes = time to clean
api-audit-field-labelling-seconds = time to label
api-audit-field-fee-percent = fee of the price
api-audit-field-fee-each = fee for each piece
api-audit-field-margin-percent = margin
api-audit-field-tax-percent = tax on the price
api-audit-field-before = questions before the first weighing
api-audit-field-without-tax = tax
api-audit-field-maker = name and address
api-audit-field-label = label
