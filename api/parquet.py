"""Tables as Apache Parquet, for who reads them with a program. It wants pyarrow, the extra `parquet`; nothing else does."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from importlib.util import find_spec
from itertools import islice
from tempfile import SpooledTemporaryFile

from flask import Response

from api.spreadsheet import IN_MEMORY, Cell, to_save

PARQUET = "application/vnd.apache.parquet"
ROWS_AT_ONCE = 1000  # a row group


def can_write() -> bool:
    return find_spec("pyarrow") is not None


def parquet(
    name: str,
    columns: Sequence[tuple[str, type[str] | type[int], str]],
    rows: Iterable[Sequence[Cell]],
) -> Response:
    """A Parquet file to save, a row group after another. columns: name, type and what it is; `name` is ours."""
    import pyarrow
    import pyarrow.parquet

    types = {str: pyarrow.string(), int: pyarrow.int64()}
    schema = pyarrow.schema(
        pyarrow.field(column, types[kind], metadata={"description": says}) for column, kind, says in columns
    )
    file = SpooledTemporaryFile(max_size=IN_MEMORY)  # noqa: SIM115
    with pyarrow.parquet.ParquetWriter(file, schema) as writer:  # type: ignore[no-untyped-call]
        for part in _parts(rows):
            told = zip(*part, strict=True)
            arrays = [pyarrow.array(values, field.type) for values, field in zip(told, schema, strict=True)]
            writer.write_table(pyarrow.Table.from_arrays(arrays, schema=schema))
    return to_save(name, file, PARQUET)


def _parts(rows: Iterable[Sequence[Cell]]) -> Iterator[list[Sequence[Cell]]]:
    rows = iter(rows)
    while part := list(islice(rows, ROWS_AT_ONCE)):
        yield part
