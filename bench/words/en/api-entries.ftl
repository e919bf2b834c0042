# What is not taken into a journal, entry by entry (api/journals.py, api/rules.py).

api-entries-other-content = Another entry has this id already, and an entry never changes. Send this one with a new id.
api-entries-shape = An entry is a JSON object with id, run, device, at, kind and body.
api-entries-too-long = This entry is { $size } bytes long. { $most } is the most. Say it shorter.
api-entries-other-run = The entry names another batch than the address does. Send it to its own.

## Time

api-entries-ahead = This is over a day ahead of the server's clock, which says { $at }. Check the device's clock and date, then the server's.
api-entries-before-batch = This is before the batch was begun. Check the device's clock and date, then send it again.
api-entries-before-signing = This is earlier than the signing. Check the device's clock and date, then send it again.

## Signing

api-entries-signings = Too many signings at once. Send this one again, by itself.
api-entries-signed = Signed on { $at }: { $name }. A maker can undo that first. Then sign again.
api-entries-signing-undone = This signing was undone already. Sign again.
api-entries-signing-missing = { $count ->
    [one] One entry that it names is not here. Send that first, then sign again.
   *[other] { $count } of the entries it names are not here. Send those first, then sign again.
}
api-entries-signing-digest = The digest is not that of the entries it names. Read them again, then sign again.
api-entries-stays-undone = A signing that was undone stays so. Sign again instead.
api-entries-undo-by-maker = Only a maker's device can undo a signing. Ask a maker.
api-entries-judged-by-maker = Only a maker's device judges. Ask a maker.
api-entries-judgement-stays = A judgement stays. Enter another one.
api-entries-release-unsigned = A batch is released by its signed record, as it is now. Sign it, then release it.

## Weighing

api-entries-mg-missing = “mg” is missing. Say in whole milligrams how much went in: { $name }.
