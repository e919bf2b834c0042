# How the API refuses, in problem details (api/errors.py, api/wire.py).


## Titles

api-errors-title-recipe = The recipe is wrong
api-errors-title-entry = The entry is wrong
api-errors-title-made = This cannot be made this way
api-errors-title-moved = The studio has moved

## Whatever is asked

api-errors-fields-wrong = Some fields are wrong. Each is named under errors.
api-errors-and-more = More than these { $most } are wrong. Mend these first, then send it again.
api-errors-not-found = { $what ->
    [device] No such device. Devices are listed here: { $where }.
    [recipe] No such recipe. Recipes are listed here: { $where }.
    [version] No such version. Versions are listed here: { $where }.
    [ingredient] No such ingredient. Ingredients are listed here: { $where }.
    [lot] No such lot. Lots are listed here: { $where }.
    [picture] No such picture. The record of a batch lists them: { $where }.
    [plan] No such plan. Find the plan of a batch here: { $where }.
    [outlet] No such outlet. Outlets are listed here: { $where }.
    [want] No such line in the order of work. They are listed here: { $where }.
    [complaint] No such complaint. Complaints are listed here: { $where }.
   *[run] No such batch. Batches are listed here: { $where }.
}
api-errors-no-address = Nothing is at this address. What there is: { $where }.
api-errors-no-method = This address does not take { $method }. The Allow header names what it takes.
api-errors-too-large = The body is larger than { $most } bytes. Send less at a time.
api-errors-file-too-large = The file is larger than { $most } bytes. On the studio's computer: `bowlside import FILE`. Or let it take more by BOWLSIDE_IMPORT_LIMIT.
api-errors-fault = Something went wrong on the server. Nothing was saved. Its log says what: { $request }.
api-errors-other = This cannot be answered as it was sent. Mend it, then send it again.

## The database cannot save

api-errors-storage-full = The server's disk is full. Nothing was saved. Make room, then send this again.
api-errors-storage-failed = The server's disk failed. Nothing was saved. Check the disk, then send this again.
api-errors-storage-readonly = The server may not write its database. Nothing was saved. See who may.
api-errors-storage-busy = The database is busy. Nothing was saved. Send this again in a moment.
api-errors-storage-unreachable = No connection to the database. Nothing was saved. Send this again in a moment.

## What comes in

api-errors-send-json = Send JSON, with the header Content-Type: application/json.
api-errors-not-json = The body is not JSON in UTF-8.
api-errors-not-json-at = The body is not JSON in UTF-8. Unreadable: line { $line }, column { $column }.
api-errors-not-an-object = Send a JSON object.
api-errors-too-deep = This is nested more than { $most } deep. Send something flatter.
api-errors-unfit = Some values cannot be saved as they are.
api-errors-unfit-text = Take out the NUL or broken characters. They cannot be saved.
api-errors-unfit-name = Take out the NUL or broken characters from the names. They cannot be saved.
api-errors-unfit-float = Send a whole number without a point (400, not 400.0). Or send the amount as text: "1.5 g".
api-errors-unfit-whole = Send a number between { $least } and { $most }.

## Somebody else's change

api-errors-here-already = { $what ->
    [recipe] This recipe is here already. “If-None-Match: *” is to create one.
    [kit] The kit is here already. “If-None-Match: *” is to create one.
    [want] This line of the order is here already. “If-None-Match: *” is to create one.
    [hours] The bench hours are here already. “If-None-Match: *” is to create them.
   *[settings] The settings are here already. “If-None-Match: *” is to create them.
}
api-errors-read-first = { $what ->
    [recipe] To change this recipe, read it first. Then send If-Match with its ETag.
    [kit] To change the kit, read it first. Then send If-Match with its ETag.
    [want] To change this line of the order, read it first. Then send If-Match with its ETag.
    [hours] To change the bench hours, read them first. Then send If-Match with their ETag.
   *[settings] To change the settings, read them first. Then send If-Match with their ETag.
}
api-errors-changed-since = { $what ->
    [recipe] Somebody has changed this recipe since you read it. Read again, then edit that.
    [kit] Somebody has changed the kit since you read it. Read again, then edit that.
    [want] Somebody has changed this line of the order since you read it. Read again, then edit that.
    [hours] Somebody has changed the bench hours since you read them. Read again, then edit that.
   *[settings] Somebody has changed the settings since you read them. Read again, then edit that.
}
api-errors-would-replace = { $what ->
    [kit] That would replace the studio's kit. To do so: { $request }.
    [hours] That would replace the studio's bench hours. To do so: { $request }.
   *[settings] That would replace the studio's settings. To do so: { $request }.
}
api-errors-whole-etag = If-Match has a version's number alone. Send the whole ETag that the server answered with.
api-errors-other-generation = The studio was restored from a copy since this was read. Read everything again, then send this.
