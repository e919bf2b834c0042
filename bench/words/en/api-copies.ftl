# Copies of everything, and a studio that moves (api/copies.py, copyfile.py, moved.py, upgrading.py).


## Making one

api-copies-there-already = { $file } is there already. Name another file, or say --replace.
api-copies-not-written = Cannot write { $file }: { $why }. Nothing was written. What was there before is as it was.
api-copies-being-written = { $file } is being written by another. Wait, or name another file.
api-copies-no-public-key = { $key } in BOWLSIDE_COPIES_KEY is no public key. `bowlside copies-key FILE` makes one.
api-copies-nothing-to-copy = Nothing is in this studio yet. No copy was made.
api-copies-cut-off = It was cut off.

## Sending it

api-copies-not-sent = { $file } is here. BOWLSIDE_COPIES_SEND did not send it: { $why }
api-copies-send-failed = { $file } is here. BOWLSIDE_COPIES_SEND ended with { $code }: { $why }
api-copies-send-too-long = { $file } is here. BOWLSIDE_COPIES_SEND took longer than { $length }.

## Reading one

api-copies-unread = Cannot read { $file }: { $why }.
api-copies-not-as-written = { $file } is not a copy as it was written. It is damaged, cut off, or something else. Use another.
api-copies-encrypted = { $file } is encrypted. Name the key file that opens it, by --identity.
api-copies-damaged-or-key = { $file } is damaged or cut off, or another key opens it. Use another copy, or that key.
api-copies-wrong-key = { $file } is not opened by that key, or it is damaged. Use another.
api-copies-no-key-file = That is no key file, or the passphrase is another.
api-copies-no-key = There is no key in that key file.
api-copies-no-room = No room to lay the copy out in { $folder } ({ $why }). That says nothing of the copy. Make room there, or name another place by TMPDIR.
api-copies-other-version = { $file } was made by another version of Bowlside (its tables: { $tables }). Use that version, or a later one.
api-copies-do-not-fit = The rows of { $file } do not belong together: { $why }.

## What cannot be read in it

api-copies-unreadable = This version cannot read all of { $file }:
api-copies-version-says = recipe { $id }, version { $version }: { $says }
api-copies-within-kit = the kit: { $says }
api-copies-within-hours = the bench hours: { $says }
api-copies-within-settings = the settings: { $says }
api-copies-within-shelf = the shelf: { $says }
api-copies-batch-says = batch { $id }: { $says }
api-copies-entry-no-json = entry { $entry } is no JSON.
api-copies-entry-another = an entry says that it is another.
api-copies-otherwise = it is not as it was written.

## Moving

api-copies-same-place = The studio is there already. Name another place.
api-copies-nothing-to-move = There is nothing in { $place } to move.
api-copies-not-moved = This studio has not moved: it is here.
api-copies-place-taken = There is a studio already where this one is to go. Name an empty place.
api-copies-has-moved = This studio has moved to { $place }. Open it there. What is here can be read, and nothing more is saved here.
api-copies-not-carried-unfit = Nothing was changed. { $table }: this database cannot take the rows as they are.
api-copies-not-carried-count = Nothing was changed. { $table }: { $sent } rows were sent, { $count } arrived.
api-copies-not-carried-changed = Nothing was changed. { $table }: the { $count } rows that arrived are not those sent.

## Tables of another version

api-copies-brought-up = The studio's tables were brought from { $was } to { $tables }. What was here before is in { $file }.
api-copies-newer-studio = This studio's tables are { $tables }. This program knows them up to { $latest }: a later version has used it. Nothing was touched. Use that version. Or put a copy back into an empty place: see before-… in the folder of copies.
