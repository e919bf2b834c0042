# The label of a batch (frontend/screens/label.js, frontend/parts/label-plate.js).

page-label-sold-in = Sold in
page-label-market = { $market ->
    [us] United States
    [uk] United Kingdom
   *[eu] European Union
}
page-label-shape = { $shape ->
    [rectangle] Flat: a box, a wrap
    [cylinder] Round: a jar, a tin. Width is all the way round.
   *[other] Another shape
}
page-label-print = Print at true size
page-label-print-says = Some browsers print a little larger. Measure the printed bar. Not 50 mm? Print again at 5000 ÷ its mm, in per cent.
page-label-language = { $market ->
    [us] A US label is in English (21 CFR 701.2, edition of 2015).
    [uk] A UK label is in English (from memory).
   *[eu] Its words are in this page's language. The country of sale may ask for its own (Art. 19(5), from memory).
}

## What is written on it

page-label-on-it = What stands on it
page-label-width = Width, mm
page-label-height = Height, mm
page-label-goes-on = What it goes on
page-label-identity = What it is
page-label-purpose = Common name or purpose
page-label-use = What it is for
page-label-use-unsaid = As the recipe says
page-label-single = Is it used up at once?
page-label-single-is = { $single ->
    [yes] Yes
    [no] No
   *[unsaid] Not said
}
page-label-keeps = Keeps unopened, months
page-label-meant = Who it is for
page-label-meant-for = { $meant ->
    [adults] Adults only, and the label says so
    [children] Children
   *[all] All
}
page-label-purpose-hint = bath bar
page-label-opened = Good after opening, months
page-label-maker = Name and address
page-label-precautions = Your own precautions, one a line
page-label-origin = Made in which country, if imported
page-label-leaflet = List and precautions
page-label-leaflet-is = { $leaflet ->
    [yes] On a leaflet (EU, UK)
   *[no] On the label
}
page-label-leaflets = Leaflets as a PDF
page-label-no-fit = The words do not fit on a label of this size. Take a larger one, or a leaflet.

## What was looked at

page-label-open = Not checked
page-label-shortfall = One pack may weigh { $mass } less than it says. A batch on average may not.
page-label-look = Look at
page-label-unsure = Their places are a guess: { $names }
page-label-missing = Still missing on it
page-label-letters = Letters
page-label-letter = { $of ->
    [list] Letters of the ingredient list: a small o is { $has } high.
    [digits] Digits of the net content: a digit is { $has } high.
   *[net] Letters of the net content: a small o is { $has } high.
}
page-label-letter-least = The rule asks for { $least }.
page-label-letter-no-least = No least height is known here.
page-label-checked = What was checked

## On the label itself. market: us, eu or uk; US and UK labels are English in every language.

page-label-plate = The label
page-label-plate-opened = Good for { $count ->
    [one] { $count } month
   *[other] { $count } months
} after opening

## On a sheet of labels

page-label-sheet = Sheet of labels
page-label-one = One label on plain paper
page-label-start = First position
page-label-count = How many
page-label-own-sheet = A sheet of your own
page-label-sheet-name = What you call it
page-label-sheet-hint = Jar labels
page-label-paper-kind = Paper
page-label-paper = { $paper ->
    [letter] Letter
   *[a4] A4
}
page-label-unit-kind = Measured in
page-label-unit = { $unit ->
    [in] Inches
   *[mm] Millimetres
}
page-label-columns = Columns
page-label-rows = Rows
page-label-length = { $of ->
    [width_um] Label, width
    [height_um] Label, height
    [left_um] Left edge to first label
    [top_um] Top edge to first label
    [across_um] Step to the next column
   *[down_um] Step to the next row
}
page-label-sheet-wants = A name and all measures are needed. Write 0 where there is none.
page-label-sheet-keep = Save this sheet
page-label-pdf = As a PDF
page-label-trial = Trial of the sheet
page-label-count-them = Count the labels
page-label-counted = Labels, counted
page-label-printed = Printed
page-label-on-pieces = On pieces
page-label-binned = Binned
page-label-too-many = More are on pieces and binned than were printed. Count again.
page-label-pdf-says = The studio draws the PDF. Print it at 100 %. Try the sheet on plain paper first.
page-label-stickers = Stickers: { $name }
page-label-code-says = The PDF has the lot's own code too, where one was scanned.
