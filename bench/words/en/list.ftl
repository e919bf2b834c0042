# Names put together in one sentence.

list-and = { $names } and { $last }
list-more = { $names }, { $next }
