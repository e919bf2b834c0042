# What every command may have to say.

cli-opening-nothing-there = No studio in { $place }. Name the right one by --database, BOWLSIDE_DATABASE or DATABASE_URL.
cli-opening-wrong-url = Cannot use that DATABASE_URL. It begins with postgresql:// and needs the driver: pip install 'bowlside[shared]'.
cli-opening-not-opened = Cannot open the database { $place }: { $why }.
cli-opening-url-not-opened = Cannot open the database of DATABASE_URL: { $why }.
cli-opening-database-could-not = The database could not do it: { $why }
cli-opening-brought-in = Added { $kept }, already here { $had }, refused { $refused }.
cli-opening-more-refused = and { $count } more
