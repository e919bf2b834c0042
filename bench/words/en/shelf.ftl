# What an entry of the shelf lacks (bench/shelf.py, frontend/parts/shelf-forms.js).

shelf-note-about = Say what the note is about: a “lot” or an “ingredient”.
shelf-how-much = Say how much: “mg” if it is weighed, “count” if it is counted.
shelf-no-currency = This currency is not in ISO 4217. Write one such as EUR, GBP or USD.
shelf-cas-wrong = CAS number is wrong. Copy it again.
shelf-mends-nothing = Nothing is mended. Name a field of the lot that was wrong.
shelf-must-have = “{ $field }” must be said of a lot. Only these may be left out: { $known }.
shelf-said-and-not = “{ $field }” is both given and left out. Send one of them.
