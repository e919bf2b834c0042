# What the server says before the studio is asked: in the language that all is said in (api/edge).

api-edge-fault = Something went wrong on the server. Its log says what.
api-edge-busy = Too many ask at once. Try again soon.
api-edge-too-often = Too many at once. Try again in 60 s.
api-edge-unreadable = This is not HTTP as it should be. It cannot be read.
api-edge-too-long = The request, with its headers, is longer than { $most } bytes.
api-edge-disk-full = The server's disk is full. Nothing was saved. Make room, then send this again.
