# What is saved on this phone and what reaches the server (frontend/keep).

## No connection, or not let in

page-keep-away = No connection. Saved on this phone; sends later.
page-keep-unpaired = This phone is not paired. What you do is saved here until it is.
page-keep-shut-out = This phone was shut out. What you do is saved here.
page-keep-status = The server refused ({ $status }). Try again later.
page-keep-needs = { $what ->
    [kit] No connection. The kit is saved on the server. Try again later.
   *[settings] No connection. These settings are saved on the server. Try again later.
}
page-keep-changed = { $what ->
    [kit] The kit changed on another device. Look again, then make your change.
   *[settings] The settings changed on another device. Look again, then make your change.
}

## Refused

page-keep-held = This phone was shut out before this was sent. Look at it, then send it again or set it aside.
page-keep-not-taken = Refused by the server.

## This phone's disk

page-keep-full = This phone is full: nothing was saved. Free some space, then touch again.
page-keep-failed = Not saved on this phone ({ $why }). Touch again. If it stays so, reload the page.
page-keep-no-disk = This browser lets the page save nothing. Leave private browsing, or allow site data.

## At the head of the bench, in as few words as it takes

page-keep-link = { $state ->
    [unpaired] not paired
    [shut-out] shut out
   *[offline] no connection
}
page-keep-unsent = { $count } not sent
page-keep-refused = { $count } refused
