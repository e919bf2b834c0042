# Amounts, shares, times and temperatures as people write them (bench/quantities.py, frontend/bench/amounts.js).

## Cannot be read

amounts-unread-amount = “{ $written }” cannot be read. Write a number and a unit: 240 g, 8 1/2 oz, 1½ tsp.
amounts-unread-share = “{ $written }” is not a share up to 100 %. Write it as 2 %.
amounts-loses-all = A loss stays below 100 %, or nothing is left.
amounts-unread-density = “{ $written }” is not a density in g/mL between 0.05 and 25, such as 1.26.
amounts-unread-celsius = “{ $written }” is not a temperature in °C from 0 to 250, such as 34.
amounts-by-zero = “{ $written }” divides by zero. Write the fraction again.
amounts-two-ways = “{ $written }”: { $one } or { $other }? Write one of them.
amounts-no-ounce-division = “{ $written }” is not a scale's division in ounces. Write it as the scale shows it, such as 0.05 oz.
amounts-not-a-mass = “{ $written }” should be a mass, such as 150 g.

## Units

amounts-no-unit = “{ $written }” has no unit. Add one, such as g, ml, tsp, parts or %.
amounts-unknown-unit = “{ $unit }” is not a unit known here. Use g, kg, mg, oz or lb. For spoons and cups: ml, l, fl oz, tsp, tbsp, cup or pint. Or drops, pieces, parts, % or “as needed”.
amounts-whose-measure = The { $measure } differs between places. Pick US, imperial or metric for the spoons and cups (“measures” in a file).
amounts-no-such-measure = { $measures ->
    [us] US measures have no { $measure }. Write it in ml.
    [imperial] Imperial measures have no { $measure }. Write it in ml.
   *[metric] Metric measures have no { $measure }. Write it in ml.
}

## Too much, too little

amounts-zero = “{ $written }” is zero. Enter more, or remove the line.
amounts-too-much = “{ $written }” is more than ten tonnes. Check the unit.
amounts-too-little = “{ $written }” is less than a millionth of a gram. Check the unit.

## Times

amounts-not-a-time = “{ $written }” is not a length of time. Write 15 s, 4 min, 6 h 30 min or 2 days.
amounts-unknown-time = “{ $unit }” is not a unit of time known here. Use s, min, h or days.
amounts-no-time = “{ $written }” is no time at all. Write at least 1 s.
amounts-over-a-year = “{ $written }” is longer than a year. Check the unit.
