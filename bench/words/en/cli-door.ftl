# `bowlside pair`, `devices`, `shut-out`.

cli-door-pair = { $role ->
    [maker] Pair a maker's device within 10 min: open { $address }, code { $code }
   *[helper] Pair a helper's device within 10 min: open { $address }, code { $code }
}
cli-door-role = { $role ->
    [maker] maker
   *[helper] helper
}
cli-door-seen = seen { $at }
cli-door-shut-out-at = shut out { $at }
cli-door-is-shut-out = { $name } is shut out.
cli-door-shut-out-already = { $name } is shut out already.
cli-door-several = { $count } devices are called { $name }: name one by its id.
cli-door-none = No device { $name }. `bowlside devices` lists them.
cli-door-no-devices = No device is paired yet. Pair one with “bowlside pair”.
