"""Labels as a PDF at true size: the same parts in the same order as the page draws, on a sheet of labels or alone.

The largest type that fits is taken, and never less than the rules ask for letters and digits. The font is the PDF
library's own, which has the letters of western languages; BOWLSIDE_LABEL_FONT names another. A sign that the font
does not have is refused, since a label with a gap in it says something else.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import NamedTuple

import reportlab
import segno
from reportlab.lib.colors import HexColor, black, white
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFError, TTFont, TTFontFile
from reportlab.pdfgen.canvas import Canvas

from api.errors import Problem
from bench import PAPERS, Label, LabelPlace, LabelSheet, Paper, PlateLine, PlatePart, label_places, words

POINT_UM = 25_400 / 72
MM = 1000 / POINT_UM
PAD = 2 * MM
LEAST_PT, MOST_PT, STEPS = 3.0, 14.0, 12
LEADING, GAP = 1.18, 0.5
LOWER = 0.3  # of a US label the net content keeps to it (21 CFR 701.13)
BAR_MM = 50
MARGIN_UM = 14_000
# Where a sheet leaves so much above its labels, the bar stands there.
ROOM_FOR_BAR_UM = 10_000
RED = HexColor("#e1000f")
GREY = HexColor("#999999")
BOLD = frozenset({"name", "signal", "net"})
GROUPS = {
    "name": "head",
    "purpose": "head",
    "signal": "signs",
    "hazard": "signs",
    "advice": "signs",
    "maker": "maker",
}
TIMES = {"name": 1.5, "signal": 1.25}
SPACES = str.maketrans({"\u202f": "\u00a0", "\u2009": "\u00a0"})


class Face(NamedTuple):
    """One label: what stands on it, how large it is, and how small its letters may be."""

    plate: tuple[tuple[PlatePart, str], ...]
    width_um: int
    height_um: int
    list_um: int | None = None
    net_um: int | None = None
    sign: str = "0"  # whose height is the net content's
    opened: str | None = None
    pictogram_um: int | None = None
    code: str | None = None  # as a QR code
    is_low: bool = False  # the net content stands in the lower 30 %


def face_of(told: Label, width_um: int, height_um: int) -> Face:
    """What the rules told of a batch's label, as large as it is to be."""
    mixture = told["clp"]
    return Face(
        _words(told["plate"]),
        width_um,
        height_um,
        told["heights"]["list"]["least_um"],
        told["heights"]["net"]["least_um"],
        "o" if told["market"] == "us" else "0",
        told["opened"],
        mixture["side_um"] if mixture and "GHS07" in mixture["pictograms"] else None,
        is_low=told["net_low"],
    )


def leaflet_of(told: Label, width_um: int, height_um: int) -> Face:
    """What goes with a piece."""
    return Face(_words(told["leaflet"]), width_um, height_um)


def sticker(plate: Sequence[PlateLine], width_um: int, height_um: int, code: str | None) -> Face:
    """A lot's, with the code that it came with."""
    return Face(_words(plate), width_um, height_um, code=code)


def _words(plate: Sequence[PlateLine]) -> tuple[tuple[PlatePart, str], ...]:
    return tuple((line["part"], line["text"]) for line in plate)


class Fonts(NamedTuple):
    plain: str
    bold: str
    file: TTFontFile

    def width(self, text: str, size: float, bold: bool) -> float:
        return float(pdfmetrics.stringWidth(text, self.bold if bold else self.plain, size))

    def share(self, sign: str) -> float:
        """How much of the type's size a sign is high: what its outline says in the font's file (glyf, yMax)."""
        file, glyph = self.file, self.file.charToGlyph[ord(sign)]
        file.seek_table("head", 50)
        if file.read_ushort():
            file.seek_table("loca", 4 * glyph)
            at = file.read_ulong()
        else:
            file.seek_table("loca", 2 * glyph)
            at = 2 * file.read_ushort()
        file.seek_table("glyf", at + 8)
        return float(file.read_short()) / float(file.unitsPerEm)


@cache
def fonts(path: Path | None) -> Fonts:
    """The library's own font, or the one that is named, for plain and bold alike."""
    own = Path(reportlab.__file__).parent / "fonts"
    plain, bold = (path, path) if path else (own / "Vera.ttf", own / "VeraBd.ttf")
    try:
        for name, each in ((plain.stem, plain), (f"{bold.stem}-bold", bold)):
            pdfmetrics.registerFont(TTFont(name, str(each)))
        return Fonts(plain.stem, f"{bold.stem}-bold", TTFontFile(str(plain)))
    except (TTFError, OSError) as error:
        raise Problem(500, words.say("api-labels-font", name=str(path), why=str(error))) from error


class Block(NamedTuple):
    """Lines of one part; of `foot` what is set beside each other."""

    lines: list[str]
    size: float
    bold: bool

    @property
    def height(self) -> float:
        return len(self.lines) * self.size * LEADING


class Laid(NamedTuple):
    """A label laid out at one size of type, and how high it is; None where a word is too long for it."""

    head: list[Block]
    signs: list[Block]  # beside the pictogram
    rest: list[Block]
    foot: list[list[str]]
    maker: list[Block]
    low: list[Block]  # along the base
    size: float
    height: float


class Pen:
    """Draws faces on the pages of one PDF."""

    def __init__(self, title: str, paper_um: tuple[int, int], font: Path | None) -> None:
        self.fonts = fonts(font)
        self.paper = paper_um[0] / POINT_UM, paper_um[1] / POINT_UM
        self.written = BytesIO()
        self.canvas = Canvas(self.written, pagesize=self.paper, invariant=1)
        self.canvas.setTitle(title)
        self.canvas.setCreator("Bowlside")

    def finish(self) -> bytes:
        self.canvas.save()
        return self.written.getvalue()

    # Words

    def known(self, text: str) -> str:
        """A text in signs that the font has, or a Problem that names those it lacks."""
        plain = text.translate(SPACES)
        lacking = {each for each in plain if each != "\n" and ord(each) not in self.fonts.file.charToGlyph}
        if lacking:
            raise Problem(422, words.say("api-labels-no-signs", signs=" ".join(sorted(lacking))))
        return plain

    def wrap(self, text: str, size: float, bold: bool, width: float) -> list[str] | None:
        """In lines no longer than the width; None where a word is longer."""
        lines: list[str] = []
        for written in text.split("\n"):
            line = ""
            for word in map(self.known, written.split(" ")):  # what has another space in it is one word
                if self.fonts.width(word, size, bold) > width:
                    return None
                longer = f"{line} {word}" if line else word
                if self.fonts.width(longer, size, bold) <= width:
                    line = longer
                else:
                    lines.append(line)
                    line = word
            lines.append(line)
        return lines

    # Laying out

    def lay(self, face: Face, size: float) -> Laid | None:
        width = face.width_um / POINT_UM - 2 * PAD
        if face.code:
            width -= self._code_side(face) + MM
        beside = width - (self._across(face) + MM if face.pictogram_um else 0)
        found: dict[str, list[Block]] = {"head": [], "signs": [], "rest": [], "maker": [], "low": []}
        for part, text in face.plate:
            if part == "foot":
                continue
            group = "low" if part == "net" and face.is_low else GROUPS.get(part, "rest")
            bold = part in BOLD
            of_part = size * TIMES.get(part, 1)
            if part == "net" and face.net_um:
                of_part = max(of_part, face.net_um / POINT_UM / self.fonts.share(face.sign))
            within = beside if group == "signs" else width
            lines = self.wrap(text, of_part, bold, within)
            if lines is None:
                return None
            found[group].append(Block(lines, of_part, bold))
        foot = self._foot(face, size, width)
        low = found["low"]
        is_too_high = sum(each.height for each in low) + PAD > LOWER * face.height_um / POINT_UM
        if foot is None or (low and is_too_high):
            return None
        laid = Laid(found["head"], found["signs"], found["rest"], foot, found["maker"], low, size, 0)
        return laid._replace(height=self._height(face, laid))

    def _foot(self, face: Face, size: float, width: float) -> list[list[str]] | None:
        """What stands beside each other at the foot, row by row; "" is the open jar."""
        items = [self.known(text) for part, text in face.plate if part == "foot"]
        if face.opened:
            items.append("")
        rows: list[list[str]] = []
        left = 0.0
        for item in items:
            wide = self.fonts.width(item, size, False) if item else 3 * size
            if wide > width:
                return None
            if not rows or wide > left:
                rows.append([])
                left = width
            rows[-1].append(item)
            left -= wide + 1.2 * size
        return rows

    def _height(self, face: Face, laid: Laid) -> float:
        blocks = [*laid.head, *laid.rest, *laid.maker]
        gap = GAP * laid.size
        parts = [each.height for each in blocks]
        if laid.signs or face.pictogram_um:
            parts.append(max(sum(each.height for each in laid.signs), self._across(face)))
        if laid.foot:
            parts.append(sum(self._row_height(row, laid.size) for row in laid.foot))
        parts += [each.height + each.size - gap for each in laid.low]
        return sum(parts) + gap * (len(parts) - 1) + 2 * PAD

    @staticmethod
    def _row_height(row: list[str], size: float) -> float:
        return 2.7 * size if "" in row else size * LEADING

    @staticmethod
    def _across(face: Face) -> float:
        """From point to point of the pictogram, its frame's red edge included."""
        return float(2**0.5 * (face.pictogram_um or 0) / POINT_UM)

    @staticmethod
    def _code_side(face: Face) -> float:
        return min(face.height_um / POINT_UM - 2 * PAD, 18 * MM)

    def fit(self, face: Face) -> Laid:
        """With the largest type that fits, or a Problem where not even the least does."""
        least = LEAST_PT
        if face.list_um:
            least = max(least, face.list_um / POINT_UM / self.fonts.share("o"))
        room = face.height_um / POINT_UM
        best = self.lay(face, least)
        if best is None or best.height > room:
            raise Problem(422, words.say("api-labels-no-fit"))
        low, high = least, max(least, MOST_PT)
        for _ in range(STEPS):
            middle = (low + high) / 2
            tried = self.lay(face, middle)
            if tried and tried.height <= room:
                low, best = middle, tried
            else:
                high = middle
        return best

    # Drawing

    def draw(self, face: Face, laid: Laid, place: LabelPlace) -> None:
        """With its upper left corner there."""
        left = place["x_um"] / POINT_UM + PAD
        top = self.paper[1] - place["y_um"] / POINT_UM
        bottom = top - face.height_um / POINT_UM + PAD
        gap = GAP * laid.size
        y = top - PAD
        if face.code:
            right = left - PAD + face.width_um / POINT_UM - PAD
            self._draw_code(face.code, right - self._code_side(face), y, self._code_side(face))
        for block in laid.head:
            y = self._write(block, left, y) - gap
        if laid.signs or face.pictogram_um:
            y = self._signs(face, laid.signs, left, y) - gap
        for block in laid.rest:
            y = self._write(block, left, y) - gap
        for row in laid.foot:
            y -= self._row_height(row, laid.size)
            self._row(row, left, y, laid.size, face.opened or "")
        for block in laid.low:  # as far from what stands above as its letters are high (21 CFR 701.13)
            self._write(block, left, bottom + block.height)
            bottom += block.height + block.size
        for block in laid.maker:
            self._write(
                block, left, min(y - gap, bottom + block.height) if laid.foot else bottom + block.height
            )

    def _write(self, block: Block, left: float, y: float) -> float:
        self.canvas.setFillColor(black)
        self.canvas.setFont(self.fonts.bold if block.bold else self.fonts.plain, block.size)
        for line in block.lines:
            y -= block.size * LEADING
            self.canvas.drawString(left, y + block.size * (LEADING - 0.92), line)
        return y

    def _signs(self, face: Face, blocks: list[Block], left: float, y: float) -> float:
        across = self._across(face)
        if across:
            right = left + face.width_um / POINT_UM - 2 * PAD
            self._exclamation(right - across, y - across, across)
        below = y
        for block in blocks:
            below = self._write(block, left, below)
        return min(below, y - across)

    def _exclamation(self, x: float, y: float, across: float) -> None:
        """GHS07: a square set at a point in a red frame, and an exclamation mark in it."""
        pen, unit = self.canvas, across / 92
        pen.saveState()
        pen.translate(x - 4 * unit, y - 4 * unit)
        pen.scale(unit, unit)
        pen.setStrokeColor(RED)
        pen.setFillColor(white)
        pen.setLineWidth(6)
        inset = 6 * 2**0.5 / 2
        frame = pen.beginPath()
        frame.moveTo(50, 4 + inset)
        for corner in ((96 - inset, 50), (50, 96 - inset), (4 + inset, 50)):
            frame.lineTo(*corner)
        frame.close()
        pen.drawPath(frame, stroke=1, fill=1)
        pen.setFillColor(black)
        mark = pen.beginPath()
        mark.moveTo(42, 71)
        mark.curveTo(42, 81.6, 58, 81.6, 58, 71)
        mark.lineTo(54, 42)
        mark.curveTo(54, 36.7, 46, 36.7, 46, 42)
        mark.close()
        pen.drawPath(mark, stroke=0, fill=1)
        pen.circle(50, 29, 6, stroke=0, fill=1)
        pen.restoreState()

    def _row(self, row: list[str], left: float, y: float, size: float, opened: str) -> None:
        self.canvas.setFillColor(black)
        for item in row:
            if item:
                self.canvas.setFont(self.fonts.plain, size)
                self.canvas.drawString(left, y + size * (LEADING - 0.92), item)
                left += self.fonts.width(item, size, False) + 1.2 * size
            else:
                self._jar(left, y, size, opened)

    def _jar(self, x: float, y: float, size: float, opened: str) -> None:
        """An open jar with the months on it: the period after opening."""
        pen, unit = self.canvas, 3 * size / 40
        pen.saveState()
        pen.translate(x, y)
        pen.scale(unit, unit)
        pen.setStrokeColor(black)
        pen.setLineWidth(2)
        pen.setLineJoin(1)
        pen.rect(4, 20, 32, 4)
        pen.rect(6, 2, 28, 18)
        pen.line(6, 27, 34, 34)
        pen.setFont(self.fonts.bold, 12)
        pen.drawCentredString(20, 6, opened)
        pen.restoreState()

    def _draw_code(self, code: str, x: float, y: float, side: float) -> None:
        rows = list(segno.make(code, error="m").matrix)
        step = side / len(rows)
        self.canvas.setFillColor(black)
        for down, row in enumerate(rows):
            for across, is_dark in enumerate(row):
                if is_dark:
                    self.canvas.rect(x + across * step, y - (down + 1) * step, step, step, stroke=0, fill=1)

    def bar(self, x_um: int, y_um: int) -> None:
        """50 mm by which a print is measured, its upper left corner there."""
        x, y = x_um / POINT_UM, self.paper[1] - y_um / POINT_UM
        self.canvas.setFillColor(black)
        self.canvas.rect(x, y - 1.5 * MM, BAR_MM * MM, 1.5 * MM, stroke=0, fill=1)
        self.canvas.setFont(self.fonts.plain, 6)
        self.canvas.drawString(x + (BAR_MM + 2) * MM, y - 1.5 * MM, self.known(words.say("label-bar")))

    def outline(self, place: LabelPlace, face: tuple[int, int], number: str = "") -> None:
        width, height = (side / POINT_UM for side in face)
        x, y = place["x_um"] / POINT_UM, self.paper[1] - place["y_um"] / POINT_UM
        self.canvas.setStrokeColor(GREY)
        self.canvas.setLineWidth(0.2 * MM)
        self.canvas.rect(x, y - height, width, height)
        if number:
            self.canvas.setFillColor(black)
            self.canvas.setFont(self.fonts.plain, 9)
            self.canvas.drawCentredString(x + width / 2, y - height / 2 - 3, number)


def one_label(face: Face, paper: Paper, title: str, font: Path | None) -> bytes:
    """One label with its outline and the bar under it."""
    return one_a_page([face], paper, title, font)


def one_a_page(faces: Sequence[Face], paper: Paper, title: str, font: Path | None) -> bytes:
    """Labels of one size, each with its outline and the bar under it, on pages as large as that takes."""
    (width, height), room = PAPERS[paper], 2 * MARGIN_UM
    wide, high = (
        max(side) for side in zip(*((each.width_um, each.height_um) for each in faces), strict=True)
    )
    pen = Pen(title, (max(width, wide + room), max(height, high + room)), font)
    place: LabelPlace = {"x_um": MARGIN_UM, "y_um": MARGIN_UM}
    for number, face in enumerate(faces):
        if number:
            pen.canvas.showPage()
        pen.outline(place, (face.width_um, face.height_um))
        pen.draw(face, pen.fit(face), place)
        pen.bar(MARGIN_UM, MARGIN_UM + face.height_um + 5000)
    return pen.finish()


def on_sheets(faces: Sequence[Face], sheet: LabelSheet, start: int, title: str, font: Path | None) -> bytes:
    """These labels one after the other from the start position, over as many sheets as it takes."""
    pen = Pen(title, PAPERS[sheet["paper"]], font)
    laid: dict[Face, Laid] = {}
    turn: Iterator[Face] = iter(faces)
    for number, page in enumerate(label_places(sheet, start, len(faces))):
        if number:
            pen.canvas.showPage()
        if sheet["top_um"] >= ROOM_FOR_BAR_UM:
            pen.bar(max(sheet["left_um"], 5000), sheet["top_um"] - 4000)
        for place, face in zip(page, turn, strict=False):
            laid[face] = laid.get(face) or pen.fit(face)
            pen.draw(face, laid[face], place)
    return pen.finish()


def trial(sheet: LabelSheet, font: Path | None) -> bytes:
    """Where the labels of a sheet lie, to be printed on plain paper and held against it, with the bar in the middle."""
    pen = Pen(words.say("api-labels-trial"), PAPERS[sheet["paper"]], font)
    [places] = label_places(sheet, 1, sheet["columns"] * sheet["rows"])
    for number, place in enumerate(places, 1):
        pen.outline(place, (sheet["width_um"], sheet["height_um"]), str(number))
    pen.bar(sheet["left_um"] + 5000, sheet["top_um"] + 4000)
    return pen.finish()
