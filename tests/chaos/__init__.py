"""Broken in every way, and then put right: nothing that was shown as done is lost.

`python -m tests.chaos` plays histories. One is made from a seed (history.py): what is done on several
devices on several runs, and what goes wrong meanwhile. A house (house.py) is the real server in several
worker processes on a real database whose disk can be full; a line (lines.py) is the network between it
and one device. A device is a light one (device.py), which speaks the API as any second client would, or
a real page in a browser (phone.py). Afterwards all is healed, and checked (play.py). A history that
fails is shrunk to what it takes, and kept in kept/ once its cause is mended.
"""
