# In which language commands speak (api/cli/spoken.py).

cli-spoken-option = In which language: { $tags }. Else as LC_ALL or LANG says, else English.
cli-spoken-unknown = There are no words in { $value }. Choose one of: { $tags }.
