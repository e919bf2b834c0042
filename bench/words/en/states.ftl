# States that do not keep (bench/states.py, which says how long each does): what is at stake, and what helps when it
# was missed. Common practice, but for what has a source beside it.

states-stake-melted_base = It sets in about 5 min: a skin first, then a plug.
states-stake-warm_fat = It clouds and sets in about 15 min.
states-stake-wetted_fizz = It dries and crumbles in about 30 min, sooner in dry air.
states-stake-whipped_base = It sinks and dries in about 30 min.
states-stake-beaten_topping = It stiffens in about 20 min and can no longer be piped.
states-stake-piped_top = A skin forms in about 10 min.
states-stake-first_layer = It goes cold in about 25 min, and the layers part.
states-stake-unwrapped = It takes up water: in days at 40 % humidity, in hours at 70 %.
# Only what was found has a source of its own.
states-source = { $state ->
    [unwrapped] ASTM D5032 (glycerol and humidity); the hours are common practice
   *[other] common practice
}
states-rescue-melted_base = Heat it briefly, then stir. Water goes each time: twice at the most.
states-rescue-warm_fat = Back over the water bath until it is clear.
states-rescue-wetted_fizz = A light spray over the whole face, worked in.
states-rescue-whipped_base = Beat it again before what comes next.
states-rescue-beaten_topping = Spread it with a knife where it no longer pipes.
states-rescue-piped_top = Mist the skin with alcohol, then set it in.
states-rescue-first_layer = Score it, warm it and mist it with alcohol. The bond is weaker.
states-rescue-unwrapped = Dab off the dew, let it dry in moving air, then wrap.
# A mix that was sprayed too wet, where its recipe does not say what helps.
states-too-wet = Stop spraying. Spread it thin, turn it now and then.
