# What a product is for, where it is sold, and what follows (bench/product).

product-use = { $use ->
    [bath] Bath
    [wash] Shower, washing
    [left_on] Stays on the skin
    [lips] Lips
    [eyes] Around the eyes
    [air] Scents the air
   *[decoration] Decoration
}
product-market = { $market ->
    [us] United States
    [eu] European Union
    [ni] Northern Ireland
   *[uk] Great Britain
}
product-law-rules = The law there rules. This lists what is known here, and no more.

## Which law

product-law-us-cosmetic = US: a cosmetic.
product-law-us-soap = US: soap, if it is mostly soap and sold only as that. Then it is no cosmetic.
product-law-us-general = US: a household product, no cosmetic.
product-law-eu-cosmetic = EU rules: a cosmetic.
product-law-ni-cosmetic = Northern Ireland: EU cosmetics law, by the Windsor Framework. What qualifies as its own may go to Great Britain.
product-law-eu-mixture = EU rules: a mixture, no cosmetic. CLP rules its label.
product-law-eu-general = EU rules: general product safety.
product-law-uk-cosmetic = Great Britain: a cosmetic, with its own list of allergens.
product-law-uk-mixture = Great Britain: a mixture, no cosmetic. CLP rules its label.
product-law-uk-general = Great Britain: general product safety.

## What is due

product-duty-us-safety = Keep records that show how its safety was judged. Small businesses too.
product-duty-us-register = Register the place where it is made (FDA), every 2 years.
product-duty-us-list = List the product (FDA) within 120 days, then each year.
product-duty-us-events = Report serious events within 15 business days, with the label. Keep such records 6 years, a small business 3.
product-duty-us-scent = If FDA asks, list what is in the scent within 30 days.
product-duty-us-soap = Label and sell it only as soap. Other claims make it a cosmetic.
product-duty-us-general = Judge what harm it can do. Some products need a warning on the label.
product-duty-eu-person = Name a responsible person in the EU.
product-duty-ni-person = Name a responsible person in Northern Ireland or the EEA.
product-duty-eu-report = Have a safety report made.
product-duty-eu-file = Keep the product’s file at the address on the label. To 10 years after the last batch.
product-duty-eu-notice = Notify it in the EU (CPNP) before the first sale.
product-duty-eu-events = Report serious unwanted effects to the authority at once.
product-duty-eu-mixture = Classify it as a mixture (CLP). Label and pack it so.
product-duty-eu-poison = If it is classified, notify the poison centres and print its code (UFI).
product-duty-eu-risk = Write down the risks and what you did about them.
product-duty-eu-general-person = Name somebody in the EU who answers for it.
product-duty-uk-person = Name a responsible person in the UK. The EU one’s details are enough to 31 December 2027.
product-duty-uk-report = Have a safety report made.
product-duty-uk-file = Keep the product’s file, in English, at a UK address.
product-duty-uk-notice = Notify it in the UK (SCPN) before the first sale.
product-duty-uk-events = Report serious unwanted effects to the authority at once.
product-duty-uk-mixture = Classify it as a mixture (GB CLP). Label and pack it so.
product-duty-uk-risk = Write down the risks and what you did about them.
product-duty-samples = Put samples of each batch aside, and keep them.
product-small-free = A small business may be free of it: under 1 million dollars of cosmetics a year, on average of 3. Not for what meets the inside of the eye.
