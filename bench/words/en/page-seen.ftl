# What the server alone works out: a label, a cost, the last times, duties (frontend/keep/seen.js).

page-seen-as-of = No connection. As of { $at }.
page-seen-never = No connection. Not seen on this phone yet: it comes with a connection.
page-seen-unsent = No connection since this batch began. This comes once it is sent.
