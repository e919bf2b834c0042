# Finished pieces: what is there and what becomes of it (frontend/screens/pieces.js, frontend/parts/pieces-forms.js).

page-pieces-none = No finished pieces here. A batch’s pieces stand here once it is finished.
page-pieces-never-seen = Not seen on this phone yet. Connect once.
page-pieces-away = No connection. Try again once there is one.
page-pieces-out = Out
page-pieces-out-of = Pieces out: { $name }
page-pieces-there-of = { $there } of { $made }
page-pieces-too-many = { $count ->
    [one] { $count } more left than was made. Check the count.
   *[other] { $count } more left than were made. Check the count.
}
page-pieces-release = { $release ->
    [held] on hold
    [rejected] rejected
   *[none] not released
}
page-pieces-duties = { $open ->
    [one] { $open } duty of selling is open: see the recipe.
   *[other] { $open } duties of selling are open: see the recipe.
}

## A batch

page-pieces-record = Record
page-pieces-place = Place
page-pieces-complaint = Complaint
page-pieces-as-lot = Make it a lot
page-pieces-recall = Recall
page-pieces-at = { $name }: { $count }
page-pieces-binned = { $day }: { $count } thrown away, { $why }
page-pieces-kept = { $count ->
    [one] { $count } piece as a sample
   *[other] { $count } pieces as samples
}
page-pieces-nowhere = None has left yet.

## Pieces that leave

page-pieces-what = What happens
page-pieces-way = { $way ->
    [sold] Sold
    [given] Given away
    [returned] Came back
    [binned] Thrown away
   *[sampled] Put aside as a sample
}
page-pieces-how-many = Pieces
page-pieces-outlet = Outlet
page-pieces-nobody = nobody named
page-pieces-why = Reason
page-pieces-of = Of which batch
page-pieces-first-out = First to expire first
page-pieces-from = { $count } of { $name }
page-pieces-which = Choose the batch that they are of.
page-pieces-short = { $count ->
    [one] { $count } piece can go. Enter fewer, or choose a batch.
   *[other] { $count } pieces can go. Enter fewer, or choose a batch.
}
page-pieces-why-needed = Write the reason.
page-pieces-saved = { $way ->
    [sold] Sold.
    [given] Given away.
    [returned] Back in stock.
    [binned] Thrown away.
   *[sampled] Put aside.
}
page-pieces-saved-place = Place saved.

## A complaint

page-pieces-complaints = Complaints
page-pieces-no-complaints = No complaints.
page-pieces-complaint-of = Complaint: { $name }
page-pieces-sort-of = What it is
page-pieces-sort = { $sort ->
    [reaction] Reaction
   *[complaint] Complaint
}
page-pieces-what-is-wrong = What is wrong
page-pieces-no-names = Write no names here. Name the outlet below: that can be erased.
page-pieces-from-whom = From whom
page-pieces-text-needed = Write what is wrong.
page-pieces-saved-complaint = Complaint saved.
page-pieces-leads-to = What it leads to

## A part made ahead

page-pieces-as-lot-of = Make it a lot: { $name }
page-pieces-as-lot-says = For a part made ahead: it goes on the shelf, and another batch gathers it.
page-pieces-weighs = Weighs together (empty: counted)

## Outlets

page-pieces-outlets = Outlets
page-pieces-add-outlet = Add an outlet
page-pieces-change = Change
page-pieces-erase = Erase
page-pieces-erased = an erased outlet
page-pieces-name = Name
page-pieces-contact = How to reach them (may stay empty)
page-pieces-outlet-says = As little as you need for a recall. It can be erased at any time.
page-pieces-name-needed = Write a name.
page-pieces-erase-title = Erase { $name }?
page-pieces-erase-stays = Name and contact go. All numbers stay.
page-pieces-erase-copies = Copies and files saved before still have the name.
page-pieces-erase-phones = Other devices forget it when they next open Pieces.
page-pieces-erased-all = Erased. No copy in the folder has the name.
page-pieces-erased-but = Erased. These copies still have the name: { $names }.
