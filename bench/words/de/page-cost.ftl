# Was eine Charge kosten wird, bevor sie gemacht ist (frontend/parts/cost-ahead.js). name: wie ihre Karte es hat.

page-cost-about = Etwa { $total }, { $each } je Stück.
page-cost-row = { $name }, { $amount } aus Lieferung { $number }: { $cost }
page-cost-row-to-buy = { $name }, { $amount } zu kaufen: { $cost }
page-cost-part = { $what ->
    [materials] Material
    [sprays] Ungewogenes
    [hands] Arbeitszeit, laut Rezept
    [cleaning] Reinigen
    [labelling] Etikettieren
    [wrap] Hülle
    [packaging] Verpackung
   *[overhead] Fixkosten
}
page-cost-price = Preis eines Stücks nach deiner Marge: { $price }
page-cost-unpriced = Ohne Preis, nicht gezählt: { $names }
