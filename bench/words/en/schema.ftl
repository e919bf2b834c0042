# What does not fit a document's published shape (bench/schema_words.py), and ids that are there twice.

schema-missing = “{ $name }” is missing. Add it.
schema-unknown = “{ $name }” is not known here. It could be { $could }.
schema-too-long = This is { $count } characters long; { $most } is the most. Shorten it.
schema-empty = This is empty. Write something.
schema-too-many = There are { $count } here; { $most } is the most.
schema-too-few = There are too few here; { $least } is the least.
schema-too-small = { $written } is too small; { $least } is the least.
schema-too-large = { $written } is too large; { $most } is the most.
schema-not-an-id = “{ $written }” does not fit. Use small letters, digits and _, beginning with a letter.
schema-not-this = This should be “{ $wanted }”.
schema-type = { $type ->
    [object] This should be an object.
    [array] This should be a list.
    [string] This should be text.
    [integer] This should be a whole number, without a point.
    [number] This should be a number.
    [boolean] This should be true or false.
   *[other] This is of another type than it should be.
}
schema-misfit = This does not fit the published shape.
schema-half-character = A text holds half of a character that nothing can show. Write it again.
schema-used-twice = { $kind ->
    [line] “{ $id }” is used twice. Give each line its own id.
    [step] “{ $id }” is used twice. Give each step its own id.
    [way] “{ $id }” is used twice. Give each way its own id.
    [portion] “{ $id }” is used twice. Give each portion its own id.
    [part] “{ $id }” is used twice. Give each part its own id.
   *[thing] “{ $id }” is used twice. Give each its own id.
}
