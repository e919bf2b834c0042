# Money as it is written (bench/money.py, frontend/bench/cost.js).

money-unread = Write an amount with a point and no thousands, such as 12.50.
