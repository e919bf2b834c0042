# Planning a week from what is wanted.

week-nothing-wanted = Say what is wanted, and by when.
week-too-many-wants = Ask for at most { $most } lines at once. Here are { $count }.
week-want-past = This instant is past. Choose a later one.
week-no-size = “{ $title }” cannot be made with this kit and these hours. Give the bench longer hours, or make a smaller batch.
week-no-hours = The bench has no hours before the last want. Say when it is yours.
