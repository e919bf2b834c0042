# Was jeder Befehl zu sagen haben kann.

cli-opening-nothing-there = Keine Werkstatt in { $place }. Die richtige nennen: --database, BOWLSIDE_DATABASE oder DATABASE_URL.
cli-opening-wrong-url = DATABASE_URL nicht verwendbar. Sie beginnt mit postgresql:// und braucht den Treiber: pip install 'bowlside[shared]'.
cli-opening-not-opened = Datenbank { $place } geht nicht auf: { $why }.
cli-opening-url-not-opened = Die Datenbank aus DATABASE_URL geht nicht auf: { $why }.
cli-opening-database-could-not = Die Datenbank konnte es nicht: { $why }
cli-opening-brought-in = Neu { $kept }, schon da { $had }, abgelehnt { $refused }.
cli-opening-more-refused = und { $count } weitere
