"""What is read piece by piece is what `json` reads at once, wherever the file is cut into parts."""

from __future__ import annotations

import io
import json
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from api import piecewise
from api.piecewise import NotAnObject, NotJson, pieces

VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4),
    max_leaves=12,
)
LISTS = frozenset({"runs", "shelf"})


class Dripping(io.BytesIO):
    """Gives a few bytes at a time, however many are asked for."""

    def __init__(self, content: bytes, most: int) -> None:
        super().__init__(content)
        self._most = most

    def read(self, size: int | None = -1) -> bytes:
        return super().read(self._most)


def put_together(content: bytes, most: int) -> dict[str, Any]:
    whole: dict[str, Any] = {}
    for name, place, value in pieces(Dripping(content, most), LISTS):
        if place is None:
            whole[name] = value
        elif place < 0:
            whole[name] = []
        else:
            assert place == len(whole[name])
            whole[name].append(value)
    return whole


@given(
    st.dictionaries(st.sampled_from(["runs", "shelf", "kit", "é", ""]) | st.text(), VALUES, max_size=5),
    st.integers(1, 9),
    st.sampled_from([None, 0, 2]),
    st.booleans(),
)
def test_it_reads_what_json_reads(
    document: dict[str, Any], most: int, indent: int | None, ascii_only: bool
) -> None:
    content = json.dumps(document, indent=indent, ensure_ascii=ascii_only).encode("utf-8", "surrogatepass")
    try:
        content.decode()
    except UnicodeDecodeError:
        with pytest.raises(NotJson):
            put_together(content, most)
        return
    assert put_together(content, most) == document


@given(st.text(alphabet='{}[]",:0123456789.eE-+trufalsn \n\\"', max_size=40), st.integers(1, 5))
@example(" 00", 3)
@example('{"a": 00}', 5)
def test_it_refuses_what_json_refuses(text: str, most: int) -> None:
    try:
        whole = json.loads(text)
    except ValueError:
        with pytest.raises(NotJson):
            put_together(text.encode(), most)
        return
    if not isinstance(whole, dict):
        with pytest.raises(NotAnObject):
            put_together(text.encode(), most)
    elif len(json.loads(text, object_pairs_hook=list)) == len(whole):
        assert put_together(text.encode(), most) == whole


CUT = b'{"runs": [1, {"a": "b"}, -12.5e3], "x": 1}'


@pytest.mark.parametrize("cut", range(len(CUT)))
def test_a_file_that_was_cut_off_is_refused(cut: int) -> None:
    with pytest.raises(NotJson):
        put_together(CUT[:cut], 3)


@pytest.mark.parametrize("number", ["9" * 5000, "-" * 3, "1e"])
def test_a_number_that_is_none_is_refused(number: str) -> None:
    with pytest.raises(NotJson):
        put_together(f'{{"x": {number}}}'.encode(), 9)


def test_a_name_that_comes_twice_is_refused() -> None:
    with pytest.raises(NotJson, match="twice"):
        put_together(b'{"runs": [], "runs": [1]}', 9)


def test_a_part_without_end_is_refused_before_the_memory_is_full(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(piecewise, "LARGEST", 1000)
    endless = io.BytesIO(b'{"runs": ["' + b"x" * 10_000_000)

    with pytest.raises(NotJson, match="longer"):
        list(pieces(endless, LISTS))
    assert endless.tell() < 3_000_000
