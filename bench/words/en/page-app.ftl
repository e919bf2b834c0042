# The page itself, whatever screen stands on it (frontend/app.js).

## Where there is nothing to show

page-app-reading = Reading the batches on this phone…
page-app-absent = Not on this phone
page-app-absent-says = It may come once there is a connection. Everything else is here.
page-app-makers = Only for makers
page-app-makers-says = This device is a helper's. Open this page on a maker's.
page-app-newer = There is a newer page
page-app-newer-there = A newer page is ready. Use it from Recipes.
page-app-newer-says = Everything you entered is saved.
page-app-load = Load it
page-app-closed = The bench can't open

## Whether it rings

page-app-mute = no sound: touch here
page-app-dark = screen may go dark

## Saved, or not

page-app-not-saved-why = Not saved: { $why }
page-app-still-here = What you wrote is still here.
page-app-save-again = Save again
page-app-do-not-save = Don't save
page-app-go-on = Go on
page-app-photo-saved = Photo saved.
page-app-planned = Planned.
page-app-hours-saved = Hours saved.

## No connection

page-app-desk-away = This needs a connection. All that a batch needs works without.
page-app-list-away = No connection. The server keeps this list.
page-app-check-away = No connection, so no check yet. What you write is saved here.
page-app-picked-away = No connection, so no check yet. What you picked stays here.
page-app-draft-waits = No connection. The recipe is a draft on this phone; it sends later.
page-app-versions-away = No connection. The newest version is here, older ones on the server.

## What rings. phase: by how urgent it is

page-app-ring-says = { $phase ->
    [look] { $what }: may be ready, check.
    [ready] { $what }: ready.
    [late] { $what }: nearly too late.
   *[over] { $what }: past the latest time.
}
page-app-ring-stir = { $what }: stir, then let it rest.
page-app-ring-more = And { $count } more.
page-app-rang = { $phase ->
    [look] { $time }: { $what }, may be ready, check
    [ready] { $time }: { $what }, ready
    [late] { $time }: { $what }, nearly too late
   *[over] { $time }: { $what }, past the latest time
}
page-app-undone = Not done yet: { $title }
page-app-away = While you were away, { $length }
page-app-nothing-rang = Nothing rang. All is as you left it.
