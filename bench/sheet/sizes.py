"""How big? Asked by pieces, by mass, by moulds, by a mix that is left or by what is in stock."""

from bench.errors import BenchError, SizeError
from bench.shapes.kit import Kit
from bench.shapes.recipe import Component, MeasuredRecipe
from bench.shapes.sheet import ByMass, ByMix, ByMoulds, ByStock, ChosenSize, Size, SizeRequest
from bench.shapes.units import Id, Mg
from bench.sheet.making import make_sheet
from bench.sheet_words import piece_word
from bench.sizing import cavities
from bench.states import ASSEMBLY
from bench.whole import ceiling, mass
from bench.words import say
from bench.yields import MOST_PIECES, make_mg, pieces_from


def choose_size(recipe: MeasuredRecipe, kit: Kit, request: SizeRequest) -> ChosenSize:
    """Turn "how big?" into a size."""
    match request["by"]:
        case "pieces":
            return _chosen(request, request["pieces"], "")
        case "mass":
            return _by_mass(recipe, request)
        case "moulds":
            return _by_moulds(recipe, kit, request)
        case "mix":
            return _by_mix(recipe, request)
        case "stock":
            return _by_stock(recipe, kit, request)


def _chosen(request: SizeRequest, pieces: int, says: str, runs_out: Id | None = None) -> ChosenSize:
    return {"size": _size(request, pieces), "says": says, "runs_out": runs_out}


def _size(request: SizeRequest, pieces: int) -> Size:
    return {
        "pieces": pieces,
        "without": sorted(request.get("without", [])),
        "swaps": request.get("swaps", {}),
        "weigh": request.get("weigh", "running"),
    }


def _by_mass(recipe: MeasuredRecipe, request: ByMass) -> ChosenSize:
    each = sum(part["takes"] * part["piece_mg"] for part in recipe["components"])
    pieces = min(request["mg"] // each, MOST_PIECES) if each else 0
    if pieces < 1:
        raise SizeError("mg", say("sizes-too-light", mass=mass(each, 1000)))
    says = say(
        "sizes-by-mass-most" if pieces == MOST_PIECES else "sizes-by-mass",
        count=pieces,
        many=piece_word(recipe["piece"], pieces),
        each=mass(each, 1000),
        mass=mass(pieces * each, 1000),
    )
    return _chosen(request, pieces, says)


def _by_moulds(recipe: MeasuredRecipe, kit: Kit, request: ByMoulds) -> ChosenSize:
    component = next((each for each in recipe["components"] if each["id"] == request["component"]), None)
    # Cavities in the moulds that fit, whether or not they are held through a wait.
    held = cavities(kit, component, is_held=True) if component else None
    if component is None or held is None:
        named = component["name"] if component else request["component"]
        raise SizeError("component", say("sizes-no-mould", part=named))
    pieces = min((request["moulds"] * held - component["spares"]) // component["takes"], MOST_PIECES)
    if pieces < 1:
        raise SizeError("moulds", say("sizes-few-moulds"))
    many = piece_word(recipe["piece"], pieces)
    says = say("sizes-by-moulds", moulds=request["moulds"], held=held, count=pieces, many=many)
    return _chosen(request, pieces, says)


def _by_mix(recipe: MeasuredRecipe, request: ByMix) -> ChosenSize:
    """How many whole pieces a mix that is left gives, spares and what stays behind taken off first."""
    component = _weighed_part(recipe, request["component"])
    mg = request["mg"]
    pieces = min((pieces_from(component, mg) - component["spares"]) // component["takes"], MOST_PIECES)
    if pieces < 1:
        least = make_mg(component, component["takes"] + component["spares"])
        wanted = mass(ceiling(least, 1000) * 1000, 1000)
        raise SizeError("mg", say("sizes-little-mix", part=component["name"], mass=wanted))
    given = _count(recipe, pieces)
    says = say("sizes-by-mix", part=component["name"], mass=mass(mg, 1000), pieces=given)
    return _chosen(request, pieces, says)


def _weighed_part(recipe: MeasuredRecipe, key: Id) -> Component:
    weighed = [each for each in recipe["components"] if each["id"] != ASSEMBLY and each["piece_mg"]]
    for component in weighed:
        if component["id"] == key:
            return component
    could = ", ".join(each["id"] for each in weighed)
    says = say("sizes-part", part=key, could=could) if could else say("sizes-no-part", part=key)
    raise SizeError("component", says)


def _count(recipe: MeasuredRecipe, pieces: int) -> str:
    return f"{pieces} {piece_word(recipe['piece'], pieces)}"


def _by_stock(recipe: MeasuredRecipe, kit: Kit, request: ByStock) -> ChosenSize:
    """The largest batch the stock allows, by halving: every need grows with the pieces."""
    stock, names = request["stock"], recipe["ingredients"]
    for key in stock:
        if key not in names:
            raise SizeError(f"stock.{key}", say("sizes-no-ingredient", name=key))
        if not _is_weighed(recipe, key):
            raise SizeError(f"stock.{key}", say("sizes-unweighed", name=names[key]["name"]))

    def short(pieces: int) -> Id | None:
        """What is short for this many: None when nothing is, "" when the kit cannot make so many."""
        try:
            sheet = make_sheet(recipe, {"id": "", "version": 0}, _size(request, pieces), kit)
        except BenchError:
            if pieces == 1:
                raise
            return ""
        return _first_out(stock, {each["id"]: each["mg"] for each in sheet["ingredients"]})

    first = short(1)
    if first:
        raise SizeError(f"stock.{first}", say("sizes-too-little", name=names[first]["name"]))
    low, high = 1, MOST_PIECES
    if short(high) is None:
        return _chosen(request, high, say("sizes-most", count=high, many=piece_word(recipe["piece"], high)))
    while high - low > 1:
        middle = (low + high) // 2
        if short(middle) is None:
            low = middle
        else:
            high = middle
    out = short(low + 1)
    pieces = _count(recipe, low)
    says = (
        say("sizes-runs-out", pieces=pieces, name=names[out]["name"])
        if out
        else say("sizes-kit-takes", pieces=pieces)
    )
    return _chosen(request, low, says, out or None)


def _first_out(stock: dict[Id, Mg], needs: dict[Id, Mg]) -> Id | None:
    """The ingredient that runs out first: the one furthest from enough; None where all is enough."""

    def enough(key: Id) -> tuple[int, Id]:
        return stock[key] * 10**9 // needs[key], key

    lacking = [key for key in stock if needs.get(key, 0) > stock[key]]
    return min(lacking, key=enough) if lacking else None


def _is_weighed(recipe: MeasuredRecipe, ingredient: Id) -> bool:
    """Whether any line, or a stand-in for one, takes this ingredient by weight."""
    lines = [line for component in recipe["components"] for line in component["lines"]]
    return any(
        each["ingredient"] == ingredient and each["ug"]
        for line in lines
        for each in (line, *line["substitutes"])
    )
