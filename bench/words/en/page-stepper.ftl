# A number with a less and a more (frontend/parts/stepper.js).

page-stepper-fewer = Fewer: { $what }
page-stepper-more = More: { $what }
page-stepper-wrong = “{ $written }” is not a whole number from { $least } to { $most }. It stays { $now }.
