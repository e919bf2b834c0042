# Entries of a journal or of the shelf that are malformed (bench/entries.py, bench/journal/reading.py).

entries-missing = “{ $field }” is missing. Add it.
entries-lacks-mg = “mg” is missing: what was read says nothing without its mass. Add it.
entries-lacks-entries = “entries” is missing: what the digest is of. Add their ids.
entries-lacks-digest = “digest” is missing: of the entries that are signed. Add it.
entries-lacks-why = “why” is missing: a reason goes with this verdict. Add it.
entries-lacks-verdict = A batch is released, held or rejected. A deviation is accepted, or not_accepted.
entries-lacks-signing = “signing” goes with “released” alone: the id of the signing. Add it there.

## The envelope

entries-envelope = An entry should be an object with id, device, at, kind and body.
entries-id = The id should be a UUID of version 7.
entries-device = The device should be 1 to 64 letters, digits, - or _.
entries-at = The time should be whole milliseconds since 1970.
entries-kind = The kind should be a word of small letters, such as “weighed”.
entries-body = The body should be an object.
# count: of the fields that there are.
entries-unknown-entry = An entry has no field “{ $field }”. It has { $known }.
entries-unknown-body = { $count ->
    [0] The body of “{ $name }” has no field “{ $field }”. It has none.
   *[other] The body of “{ $name }” has no field “{ $field }”. It has { $known }.
}
entries-unknown-within = “{ $name }” has no field “{ $field }”. It has { $known }.

## A field, by its type

entries-fits-id = “{ $field }” should be the id of something on the sheet.
entries-fits-mass = “{ $field }” should be whole milligrams from 0 to 1 000 000 000.
entries-fits-whole = “{ $field }” should be a whole number.
entries-fits-count = “{ $field }” should be a whole number from 0 to 10 000.
entries-fits-factor = “{ $field }” should be a whole number from 1 to 1 000 000 000 000.
entries-fits-weigh = “{ $field }” should be “running” or “tare”.
entries-fits-answer = “{ $field }” should be “yes”, “not_yet” or “too_far”.
entries-fits-span = “{ $field }” should be whole milliseconds from 1 to a year.
entries-fits-humidity = “{ $field }” should be whole per cent from 1 to 100.
entries-fits-warmth = “{ $field }” should be thousandths of a degree Celsius, from -40 000 to 60 000.
entries-fits-measured = “{ $field }” should be “piece”, “left” or “spoiled”.
entries-fits-judgement = “{ $field }” should be “released”, “held”, “rejected”, “accepted” or “not_accepted”.
entries-fits-lot_verdict = “{ $field }” should be “held”, “accepted” or “rejected”.
entries-fits-met = “{ $field }” should be “yes” or “no”.
entries-fits-market = “{ $field }” should be “us”, “eu” or “uk”.
entries-fits-paper = “{ $field }” should be “safety_sheet”, “ifra_certificate”, “analysis” or “other”.
entries-fits-media = “{ $field }” should be “pdf”, “jpeg” or “png”.
entries-fits-complaint = “{ $field }” should be “complaint” or “reaction”.
entries-fits-text = “{ $field }” should be text of 1 to 2000 characters.
entries-fits-uuid = “{ $field }” should be a UUID in small letters, as its address takes it.
entries-fits-sha256 = “{ $field }” should be the file's SHA-256, 64 small hexadecimal digits.
entries-fits-ids = “{ $field }” should be at most { $most } ids of entries, each once and sorted.
entries-fits-key = “{ $field }” should be 1 to 140 letters, digits, dots, - or _.
entries-fits-day = “{ $field }” should be a day of the calendar, such as 2027-03-31.
entries-fits-price = “{ $field }” should be an amount as text (“12.50”) and a currency (“EUR”). A tax is optional: its per cent as text, and whether it is included.
entries-fits-card = “{ $field }” should be an object with a name of 1 to 200 characters.
