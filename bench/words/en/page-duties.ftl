# What is due before something is sold (frontend/parts/duties.js).

page-duties-open = { $open ->
    [0] Duties of selling: none of { $count } is open
    [one] Duties of selling: { $open } of { $count } is open
   *[other] Duties of selling: { $open } of { $count } are open
}
page-duties-not-sold = Duties of selling: none, it is not sold
page-duties-unsaid = Duties of selling: say first what it is for and where it is sold
page-duties-title = Duties of selling
page-duties-not-seen = Not seen on this phone yet. They come with a connection.
page-duties-state = { $state ->
    [open] Open
    [seen_to] Seen to
   *[not_mine] Does not apply
}
page-duties-how = How it stands
page-duties-day = Date
page-duties-note = Note
page-duties-no-date = date of the text not known
page-duties-not-saved = Not saved: { $why }
page-duties-keep = Save in the recipe
page-duties-kept = Saved in the recipe.
page-duties-kept-waits = No connection. Saved on this phone; sends later.
