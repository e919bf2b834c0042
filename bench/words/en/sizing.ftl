# In how many rounds a part is made, and what no round can hold (bench/sizing.py, frontend/bench/sizing.js).

sizing-piece-too-big = { $name }: { $piece } a piece, and the largest { $shape } cavity holds { $held }. Use a larger mould or a smaller piece.
sizing-too-heavy = { $name }: more than ten tonnes. Make fewer pieces.

## vessel: its kind, as recipes and kits write it

sizing-one-too-big = { $name }: one piece takes { $piece }, and the largest { $vessel } on its scale { $room }. Use a larger vessel or scale, or a smaller piece.
sizing-too-many-rounds = { $name }: { $count } pieces would take more than { $most } rounds. Why: { $why }. Make fewer pieces, or use larger moulds and vessels.
