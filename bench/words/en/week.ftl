# Planning a week from what is wanted.

week-nothing-wanted = Say what is wanted, and by when.
week-too-many-wants = Ask for at most { $most } lines at once. Here are { $count }.
week-want-past = This instant is past. Choose a later one.
week-no-size = “{ $title }” cannot be made with this kit and these hours. Give the bench longer hours, or make a smaller batch.
week-no-hours = The bench has no hours before the last want. Say when it is yours.

## How good a plan of a week is

week-says-met = Everything is ready in time, in { $batches ->
    [one] { $batches } batch
   *[other] { $batches } batches
}.
week-says-nothing = Nothing to make.
week-says-fewest = Fewer would not do.
week-says-short = { $short ->
    [one] { $short } piece is short.
   *[other] { $short } pieces are short.
}
week-says-no-better = No plan with these sizes has fewer missing.
week-says-at-least = At least { $least } are missing, whatever is done.
week-says-by-rule = A plain rule made this plan. A better one may exist.
