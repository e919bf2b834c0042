"""Text as it is searched, and searched for: capitals, accents and ways of writing a letter do not matter."""

from unicodedata import category, normalize


def folded(text: str) -> str:
    """Text less what a hasty thumb leaves out: "Crème  BRÛLÉE" is "creme brulee".

    Compatibility forms, accents and capitals go by the Unicode Standard, 3.13 and Annex 15: NFKD, no
    nonspacing marks, full case folding. The page does the same (frontend/bench/folding.js).
    """
    bare = "".join(each for each in normalize("NFKD", text) if category(each) != "Mn")
    return " ".join(bare.casefold().split())
