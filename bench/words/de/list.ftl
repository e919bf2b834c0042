# Namen in einem Satz.

list-and = { $names } und { $last }
list-more = { $names }, { $next }
