# Where a figure of the table of substances is from.

sources-iupac = abridged standard atomic weights of CIAAW, summed
sources-memory = from memory: check the supplier’s sheet
sources-common-practice = common practice
sources-definition = what the name means
sources-second-hand = a published figure, second-hand
sources-from-alcohol = 14 % alcohol by volume in the distillate, from memory
sources-eu-2021-849 = Regulation (EU) 2021/849, in force from 17 December 2022
sources-eu-2023-2055 = Regulation (EU) 2023/2055, in force from 17 October 2023; summary read
sources-eu-2019-831 = Regulation (EU) 2019/831 of 22 May 2019; that it forbids them is second-hand
sources-excipients = excipients handbook: loose and tapped powder
sources-sshade = SSHADE database
sources-usp-nf-23 = USP-NF 23, specific gravity
sources-chocolate-handbook = industrial chocolate handbook, 4th edition 2009
sources-national-formulary = National Formulary, hot fat against water
sources-clp-603-117-00-0 = harmonised classification 603-117-00-0 (second-hand)
sources-iec-60079-20-1 = IEC 60079-20-1:2010
sources-echa-menthol = registration dossier of 19 May 2023, self-classified
sources-cfr-2015 = 21 CFR, annual edition 2015: check today’s
