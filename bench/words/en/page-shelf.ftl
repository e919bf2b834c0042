# What is in the house (frontend/screens/shelf.js, frontend/parts/shelf-forms.js, frontend/parts/stock.js).

page-shelf-empty = Nothing on the shelf yet. Receive what comes: what it is, its lot number, how much.
page-shelf-no-match = No match. Try part of the name.
page-shelf-find = Find by name, lot number or code
page-shelf-scan = Scan
page-shelf-scan-lot = Scan a lot
page-shelf-scan-package = Scan the package

## An ingredient. name: as its maker wrote it.

page-shelf-used-up = { $count } used up
page-shelf-receive = Receive a lot
page-shelf-receive-of = Receive a lot: { $name }
page-shelf-card = Card
page-shelf-card-of = Card: { $name }
page-shelf-note = Note
page-shelf-note-on = Note: { $name }
page-shelf-fact = { $fact ->
    [inci] INCI
    [cas] CAS
    [density] Density
    [limits] Limits
    [hazards] Cautions
    [note] Note
   *[answers_to] Also called
}
page-shelf-density = { $density } g/mL, { $source }

## A lot. name: its supplier's number.

page-shelf-pieces = { $count ->
    [one] { $count } piece
   *[other] { $count } pieces
}
page-shelf-best-before = best before { $day }
page-shelf-past = past its date, { $day }
page-shelf-received = received { $day }
page-shelf-paid = { $tax ->
    [included] { $price }, { $percent } % tax included
    [added] { $price } plus { $percent } % tax
   *[none] { $price }
}
page-shelf-left-of = { $left } of { $whole }
page-shelf-wrote-off = { $day }: { $amount } written off, { $why }
page-shelf-correct = Correct
page-shelf-correct-lot = Correct { $name }
page-shelf-write-off = Write off
page-shelf-write-off-lot = Write off { $name }
page-shelf-where = Where it went
page-shelf-where-lot = Where it went: { $name }
page-shelf-here = Batches on this phone:
page-shelf-in-none = In no batch.
page-shelf-recall = Recall list as a file
page-shelf-how-much-left = { $name }: how much is left?

## Said once it is saved

page-shelf-saved-card = Card saved.
page-shelf-saved-loss = Written off.
page-shelf-saved-lot = On the shelf.
page-shelf-saved-correction = Corrected.
page-shelf-saved-note = Note saved.

## The form of a lot that came

page-shelf-what = What came
page-shelf-new = Something new
page-shelf-trade-name = Trade name
page-shelf-inci = INCI name
page-shelf-inci-hint = as on a label
page-shelf-much = How much
page-shelf-much-hint = 1 kg
page-shelf-number = Supplier's lot number
page-shelf-supplier = Supplier
page-shelf-best = Best before
page-shelf-received-on = Received on
page-shelf-price = Price paid
page-shelf-price-hint = 12.50
page-shelf-currency = Currency
page-shelf-tax = Tax, per cent
page-shelf-tax-included = The price includes it
page-shelf-code = Bar code or QR text
page-shelf-put = Put on the shelf

## The form of a card

page-shelf-card-new = New card
page-shelf-cas = CAS number
page-shelf-answers = Recipes also call it, one a line
page-shelf-limits = The supplier's limits, one a line
page-shelf-hazards = Usual cautions
page-shelf-hazard-note = Hazard and other notes, from its safety sheet
page-shelf-density-ml = Density, g/mL
page-shelf-density-hint = 0.92
page-shelf-density-from = Density from where
page-shelf-density-from-hint = the data sheet
page-shelf-save-card = Save card

## The form of a loss

page-shelf-loss = Write off: { $name }
page-shelf-gone = How much is gone
page-shelf-gone-hint = { $measure ->
    [mg] 20 g
   *[count] 3 pieces
}
page-shelf-why = Why
page-shelf-why-hint = spilt, gone off

## What cannot be saved as it is written

page-shelf-need-much = Write how much: 1 kg, or 50 pieces.
page-shelf-need-mass-or-pieces = Write how much as a mass or in pieces: 1 kg, or 50 pieces.
page-shelf-need-mass = This lot is weighed. Write a mass, such as 20 g.
page-shelf-need-pieces = This lot is counted. Write pieces, such as 3 pieces.
page-shelf-need-currency = Write the currency, such as EUR.
page-shelf-no-currency = A currency has three letters, such as EUR, GBP or USD.
page-shelf-need-name = Write its trade name.
page-shelf-need-number = Write the supplier's lot number: a recall goes by it.
page-shelf-need-day = Write the day it came.
page-shelf-need-source = Write where the density is from.
page-shelf-need-why = Write why: the record asks a year later.
page-shelf-sticker = Sticker
page-shelf-sticker-of = Sticker for lot { $name }

## Lots that are judged, and papers

page-shelf-verdict = { $verdict ->
    [held] held
    [accepted] accepted
   *[rejected] rejected
}
page-shelf-judged = { $verdict ->
    [held] Held { $at }
    [accepted] Accepted { $at }
   *[rejected] Rejected { $at }
}
page-shelf-judged-by = { $verdict ->
    [held] Held by { $name }, { $at }
    [accepted] Accepted by { $name }, { $at }
   *[rejected] Rejected by { $name }, { $at }
}
page-shelf-judge = Judge
page-shelf-judge-lot = Judge lot { $name }
page-shelf-judge-title = May lot { $name } be used?
page-shelf-saved-judgement = The judgement is saved.
page-shelf-status = May it be used?
page-shelf-status-none = Not judged
page-shelf-status-accepted = Yes, papers seen
page-shelf-status-held = Held until it is judged
page-shelf-held-why = Held at receipt.
page-shelf-paper = Paper
page-shelf-paper-on = Paper about { $name }
page-shelf-paper-kind = { $paper ->
    [safety_sheet] Safety data sheet
    [ifra_certificate] IFRA certificate
    [analysis] Certificate of analysis
   *[other] Other paper
}
page-shelf-paper-what = Which paper
page-shelf-paper-reference = Its number, or where it is
page-shelf-paper-file = File, PDF or photo (optional)
page-shelf-paper-open = Open: { $kind }
page-shelf-paper-reading = The file is still being read. Save again in a moment.
page-shelf-paper-too-large = The file is over 8 MB. Save it smaller, then choose it again.
page-shelf-paper-dated = Dated
page-shelf-paper-expires = Valid until
page-shelf-paper-amendment = IFRA amendment
page-shelf-paper-category = IFRA category
page-shelf-need-reference = A reference is missing. Write its number, or where it is.
page-shelf-saved-paper = The paper is saved.
page-shelf-paper-line = { $kind }: { $reference }
page-shelf-paper-amended = amendment { $amendment }
page-shelf-paper-of-category = category { $category }
page-shelf-paper-until = valid until { $day }
page-shelf-paper-over = was valid until { $day }
page-shelf-paper-of = dated { $day }
page-shelf-papers-past = past its date: { $names }
page-shelf-papers-soon = ends { $day }: { $name }
page-shelf-delivery = Delivery

## A lot that was written wrong

page-shelf-mend = Mend
page-shelf-mend-lot = Mend lot { $name }
page-shelf-saved-mending = Mended. What it was stands beside.
page-shelf-need-change = Nothing is changed. Mend what was written wrong, or go back.
page-shelf-mended = { $day }: mended; { $fields }
page-shelf-was = { $field ->
    [ingredient] was { $before }
    [much] received was { $before }
    [number] lot number was { $before }
    [supplier] supplier was { $before }
    [best] best before was { $before }
    [received] received on was { $before }
    [price] price was { $before }
   *[code] code was { $before }
}
page-shelf-bring-list = Bring in a supplier's list
page-shelf-supply = Buying
page-shelf-supply-of = Buying: { $name }
