"""The edge: what stands between the network and the application, so that no client holds the one or the other.

Connections are accepted, heads and bodies read, and answers written by one event loop, which waits for
nobody; a thread works on a request only while it is whole and its answer is being made. `crowd` counts
who holds how much and who gives way; `connection` is one client's HTTP, parsed by h11, with a deadline for
whatever is awaited of it; `wsgi` is the way into the application and back; `lanes` shares the threads.
"""
