# In which language commands speak (api/cli/spoken.py).

cli-spoken-option = In which language: { $tags }. Else as LC_ALL or LANG says, else English.
cli-spoken-unknown = There are no words in { $value }. Choose one of: { $tags }.
cli-spoken-no-option = There is no option { $name }. --help lists those there are.
cli-spoken-no-command = There is no command “{ $name }”. Choose one of: { $names }.
cli-spoken-needs-value = { $name } needs a value behind it.
cli-spoken-takes-no-value = { $name } takes no value. Leave it off.
cli-spoken-missing = { $name } is missing. Add it.
cli-spoken-too-many = That is one word too many. --help shows what there is.
cli-spoken-bad-value = { $name } does not take “{ $value }”. { $takes }
cli-spoken-one-of = Choose one of: { $names }.
cli-spoken-from-to = Write a whole number from { $least } to { $most }.
cli-spoken-whole = Write a whole number of 1 or more.
cli-spoken-day = Write a day, such as 2026-03-31.
cli-spoken-file = Name a file.
