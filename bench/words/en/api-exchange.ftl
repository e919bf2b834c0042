# What is brought in from a file (api/exchange.py, api/piecewise.py).

api-exchange-not-ours = This is not a file of Bowlside's.
api-exchange-formats = It must be one of: { $names }.
api-exchange-database-stopped = { $count ->
    [one] The database could not go on ({ $why }). One thing of this file was saved. Send it again: what is here by then is skipped.
   *[other] The database could not go on ({ $why }). { $count } things of this file were saved. Send it again: what is here by then is skipped.
}

## What is no JSON

api-exchange-not-json-twice = Not JSON in UTF-8: { $name } comes twice.
api-exchange-not-json-too-long = Not JSON in UTF-8: one part of it is longer than { $most } characters.
api-exchange-not-json-utf8 = The file is not UTF-8.
api-exchange-not-json-at = Not JSON in UTF-8: character { $at } cannot be read.
