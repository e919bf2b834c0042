# Eine Zahl mit weniger und mehr (frontend/parts/stepper.js).

page-stepper-fewer = Weniger: { $what }
page-stepper-more = Mehr: { $what }
page-stepper-wrong = „{ $written }“ ist keine ganze Zahl von { $least } bis { $most }. Es bleibt { $now }.
