# Money as it is written (bench/money.py, frontend/bench/cost.js).

money-unread = Betrag mit Punkt und ohne Tausender schreiben, etwa 12.50.
