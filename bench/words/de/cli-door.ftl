# `bowlside pair`, `devices`, `shut-out`.

cli-door-pair = { $role ->
    [maker] Das Gerät eines Herstellers koppeln, in 10 min: { $address } öffnen, Code { $code }
   *[helper] Das Gerät einer Hilfe koppeln, in 10 min: { $address } öffnen, Code { $code }
}
cli-door-role = { $role ->
    [maker] Hersteller
   *[helper] Hilfe
}
cli-door-seen = zuletzt da { $at }
cli-door-shut-out-at = ausgesperrt { $at }
cli-door-is-shut-out = { $name } ist ausgesperrt.
cli-door-shut-out-already = { $name } ist schon ausgesperrt.
cli-door-several = { $count } Geräte heißen { $name }: eins mit seiner Kennung nennen.
cli-door-none = Kein Gerät { $name }. `bowlside devices` zeigt sie.
cli-door-no-devices = Noch kein Gerät gekoppelt. Eines koppeln: „bowlside pair“.
