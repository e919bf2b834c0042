# The usual cautions, shown before the hand reaches the hazard. The first clause stands alone where one was read
# before: at most six words. Each has beside it where it comes from.

# Source: published burn tables for hot water at 140 °F give 5 to 6 s; the shorter is shown.
cautions-hot_soap = Melted soap clings and burns: { -at-60 } can burn deeply in about 5 s. Sleeves down, cold water near.
# Source: common practice.
cautions-hot_fat = Hot butter or oil burns, and can catch. Low heat, never left alone, no water near it.
# Source: citric acid: H319 and H335 in Regulation (EU) 2021/849; P261 on supplier's sheets.
cautions-powder = Fine powder irritates eyes and lungs. Tip it low and slowly, mask on, no fan on the bench.
# Source: 2-propanol, IEC 60079-20-1:2010.
cautions-alcohol = Alcohol vapour lights easily: its flash point is near { -at-12 }. Heaters and flames off, window open.
# Source: common practice; local wiring codes apply.
cautions-wet_sockets = Wet hands and mains don't mix. Dry them before the plug, the switch or the mixer.
# Source: US FDA consumer page on superheated water, 28 Nov 2007.
cautions-superheated = Microwaved liquid can boil over, when moved or stirred. Short bursts, then wait before you lift it.
# Source: common practice; the mixer's own booklet applies.
cautions-mixer = Stop the mixer, unplug it: only then fingers or a spatula near the whisk.
# Source: common practice.
cautions-slippery = Spilt oil or soap is slippery. Wipe it up before you carry anything.
