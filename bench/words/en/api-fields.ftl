# What is wrong with one field of a request (api/field_words.py, api/schemas.py).


## Of any field

api-fields-missing = This is missing. Add it.
api-fields-null = This is null. Give a value, or leave it out.
api-fields-unusable = This cannot be used. Send something else.
api-fields-unknown = This name is not known here. Take it out.

## What should stand there

api-fields-text = Send text.
api-fields-number = Send a number.
api-fields-whole = Send a whole number.
api-fields-flag = Send true or false.
api-fields-date = Send a day, such as 2026-11-28.
api-fields-uuid = Send a UUID, as its address has it.
api-fields-list = Send a list.
api-fields-object = Send an object.
api-fields-pattern = This is not written as it should be. Write it as the API's description says.
api-fields-one-of = This must be one of: { $choices }.
api-fields-equal = This must be: { $other }.

## Too much, too little

api-fields-least = This is too small. { $min } is the least.
api-fields-most = This is too large. { $max } is the most.
api-fields-between = Send a number from { $min } to { $max }.
api-fields-shortest = This is too short. { $min } is the least.
api-fields-longest = This is too long. { $max } is the most.
api-fields-length = From { $min } to { $max } fit here. Make it shorter or longer.
api-fields-exactly = This must have a length of { $equal }.
api-fields-too-many = There are { $count } here. { $most } is the most.
api-fields-too-many-entries = Send at most { $max } entries at a time.

## Certain fields

api-fields-identifier = Use an id of the recipe, such as base.fragrance.
api-fields-sha256 = Send 64 hexadecimal digits, or leave it out.
api-fields-device-name = Give it a name of one line, up to 60 letters.
api-fields-client-id = Send it as the entries have it.
api-fields-air = Give temperature and humidity together, or neither.
api-fields-needed-by = To size it by { $by }, this is needed. Add it.
api-fields-search = Write words to look for.
api-fields-plain-name = Use plain letters.
