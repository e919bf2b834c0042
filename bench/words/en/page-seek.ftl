# A batch that is not on this phone (frontend/seek.js).

page-seek-title = This batch is not on this phone
page-seek-away = No connection. This batch opens once there is one. Everything on this phone works.
page-seek-none = The studio has no such batch.
page-seek-no-number = No batch has the number { $number }.
page-seek-several = { $count } batches have this number
