"""The house: what may come into `bench`, its door, and words never said. tests/api holds the other side."""

from __future__ import annotations

import ast
import importlib
import re
import subprocess
import sys
from graphlib import TopologicalSorter
from pathlib import Path
from typing import NamedTuple, get_args

import pytest
from workshop import ROOT

import bench
from bench.shapes import write
from bench.shapes.recipe import StepKind
from tests.often import IS_CHAOS, for_now

# Everything bench may import. A clock, a file, randomness or the environment is not among it.
WELCOME = {
    "bench",
    "bisect",
    "calendar",
    "contextlib",
    "contextvars",
    "csv",
    "typing",
    "collections",
    "dataclasses",
    "fractions",
    "functools",
    "graphlib",
    "hashlib",
    "itertools",
    "json",
    "math",
    "re",
    "types",
    "unicodedata",
}
# What a library does better, by one door each: conversions, the verdict on a document's shape, currencies, a language's words and plurals,
# the solving (where its library is installed) and that it can be stopped, and the hours of a place's clock.
BY_ONE_DOOR = {
    "pint": ("quantities.py",),
    "jsonschema": ("schema_words.py",),
    "babel": ("money.py", "language.py"),
    "fluent": ("catalogue.py",),
    "ortools": ("solver.py", "rules.py", "joint.py", "batch_rules.py", "lot_sizing.py"),
    "threading": ("solver.py",),
    "importlib": ("solver.py", "write.py", "language.py", "table.py"),
    "zoneinfo": ("bench_hours.py",),
    "datetime": ("bench_hours.py",),
    # The shapes are written out while developing; nothing of it runs otherwise.
    "ast": ("write.py",),
    "inspect": ("write.py",),
    "pathlib": ("write.py",),
}
READS_THE_WORLD = {"open", "input", "print", "eval", "exec", "__import__", "breakpoint"}


class Module(NamedTuple):
    """What a module's source says of itself."""

    imports: set[str]
    calls: set[str]
    texts: list[str]  # less those that say what something is for
    opens_with: str | None


def read(path: Path) -> Module:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    nodes = list(ast.walk(tree))
    imports: set[str] = set()
    for node in nodes:
        if isinstance(node, ast.Import):
            imports.update(alias.name for alias in node.names)
        if isinstance(node, ast.ImportFrom):
            imports.add("." * node.level + (node.module or ""))
    notes = {
        ast.get_docstring(node, clean=False)
        for node in nodes
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)
    }
    texts = [node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)]
    return Module(
        imports,
        {node.func.id for node in nodes if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)},
        [text for text in texts if text not in notes],
        ast.get_docstring(tree),
    )


@pytest.fixture(scope="module")
def modules():
    """Each module of the bench, read once."""
    found = {path: read(path) for path in sorted((ROOT / "bench").rglob("*.py"))}
    assert len(found) > 100
    return found


def test_bench_imports_no_web_no_database_no_clock_no_file_and_no_chance(modules):
    """By its full name: from where is said, never by a dot."""
    strangers = [
        (path.name, name)
        for path, module in modules.items()
        for name in module.imports
        if (package := name.split(".")[0]) not in WELCOME and path.name not in BY_ONE_DOOR.get(package, ())
    ]

    assert strangers == []


def test_bench_opens_nothing_and_prints_nothing(modules):
    assert [
        (path.name, called) for path, (_, calls, *_) in modules.items() if (called := calls & READS_THE_WORLD)
    ] == []


def test_importing_bench_brings_in_neither_pint_nor_the_house_above_it():
    """Pint takes a quarter of a second, so it comes with the first amount read."""
    told = subprocess.run(
        [sys.executable, "-c", "import sys, bench; print(*sorted({name.split('.')[0] for name in sys.modules}))"],
        capture_output=True, text=True, check=True, cwd=ROOT,
    ).stdout.split()  # fmt: skip

    assert not {"pint", "flask", "sqlalchemy", "marshmallow", "api"} & set(told)


def test_the_door_opens_on_everything_it_names():
    assert sorted(bench.__all__) == sorted(set(bench.__all__))
    for name in bench.__all__:
        assert getattr(bench, name) is not None


def test_every_error_is_a_bench_error_with_a_place_and_a_way_out():
    for name in bench.__all__:
        if name.endswith("Error"):
            fault = getattr(bench, name)("lines.0", "Write it again.")
            assert isinstance(fault, bench.BenchError)
            assert (fault.where, fault.says) == ("lines.0", "Write it again.")


def test_what_is_written_from_the_shapes_is_not_old():
    """After a change of a shape: `python -m bench.shapes.write`."""
    shapes, written = ROOT / "bench" / "shapes", write.written()

    assert len(written) >= 2
    assert [
        name for name, text in written.items() if (shapes / name).read_text(encoding="utf-8") != text
    ] == []


def test_what_a_shape_takes_from_another_is_written_once_for_the_page_and_described_in_its_schema():
    shapes = write.Shapes()
    page = shapes.page()
    task = page[page.index("export interface Task extends TaskProgress {") :].partition("}")[0]
    line = shapes.schemas()["recipe"]["RecipeLine"]["properties"]

    assert "left_ms" not in task and "readonly takes_ms: Ms;" in task
    assert isinstance(line, dict) and line["unit"] == {
        "type": "string",
        "description": "of a count: drops or pieces",
    }


LOWERS = re.compile(r"^def lower\(written: Written", re.MULTILINE)  # of one kind


@pytest.mark.parametrize("room", ["journal", "prompting", "sheet", "steps"])
def test_a_room_has_the_same_modules_on_the_phone(room):
    """All but the sheet as text, which the command line prints, and what is lowered when a recipe is read."""
    modules = [
        path for path in (ROOT / "bench" / room).glob("*.py") if not LOWERS.search(path.read_text("utf-8"))
    ]
    here = {path.stem.replace("_", "-") for path in modules} - {"--init--"}
    there = {path.stem for path in (ROOT / "frontend" / "bench" / room).glob("*.js")} - {"index"}

    assert there == here - {"text"}


def test_no_module_of_the_phones_bench_is_imported_by_one_that_it_imports():
    """TopologicalSorter names the circle."""
    folder = ROOT / "frontend" / "bench"
    imports = {
        path: [
            (path.parent / name).resolve()
            for name in re.findall(r'^(?:import|export|\}) .*?from "(\..*?)";', path.read_text("utf-8"), re.M)
        ]
        for path in folder.rglob("*.js")
    }
    assert imports[folder / "prompting" / "index.js"]

    list(TopologicalSorter(imports).static_order())


def test_nothing_said_to_the_maker_calls_anything_safe_or_compliant(modules):
    """The bench says what it checked; it never gives that verdict."""
    verdict = re.compile(r"\b(safe|safely|compliant|compliance|harmless|non-?toxic)\b", re.IGNORECASE)

    assert [text for module in modules.values() for text in module.texts if verdict.search(text)] == []


def test_every_module_opens_with_why_it_exists(modules):
    assert [path.name for path, module in modules.items() if not module.opens_with] == []


# The kinds of step are named where they are defined and nowhere else; a plan's tasks have kinds of their own.
KINDS_OF_STEP = set(get_args(StepKind))
NAME_KINDS = ("bench/steps/", "bench/shapes/")
CORE = [
    path
    for folder in ("bench", "api")
    for path in sorted((ROOT / folder).rglob("*.py"))
    if not path.relative_to(ROOT).as_posix().startswith(NAME_KINDS)
]


def is_kind_of_step(node: ast.expr) -> bool:
    """Whether an expression reads `….["kind"]` or `….kind` of anything but a plan's task."""
    reads = (
        isinstance(node, ast.Subscript)
        and isinstance(node.slice, ast.Constant)
        and node.slice.value == "kind"
    )
    return (reads or isinstance(node, ast.Attribute | ast.Name) and ast.unparse(node).endswith("kind")) and (
        "task" not in ast.unparse(node)
    )


def kinds_named(node: ast.AST) -> set[str]:
    return {each.value for each in ast.walk(node) if isinstance(each, ast.Constant)} & KINDS_OF_STEP


def names_a_kind(node: ast.AST) -> bool:
    match node:
        case ast.Compare(left=left, comparators=others):
            return is_kind_of_step(left) and any(kinds_named(each) for each in others)
        case ast.Match(subject=subject, cases=cases):
            return is_kind_of_step(subject) and any(kinds_named(each.pattern) for each in cases)
        case ast.keyword(arg="kind", value=value):
            return bool(kinds_named(value))
        case ast.Dict(keys=keys):
            return len({each.value for each in keys if isinstance(each, ast.Constant)} & KINDS_OF_STEP) > 2
    return False


def test_the_core_asks_a_step_for_its_traits_and_never_for_its_name():
    texts = {path: path.read_text(encoding="utf-8") for path in CORE}
    named = [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for path, text in texts.items()
        if any(f'"{kind}"' in text for kind in KINDS_OF_STEP)
        for node in ast.walk(ast.parse(text))
        if names_a_kind(node)
    ]

    assert named == []


def test_the_phone_asks_a_step_for_its_traits_too():
    """`.kind` or `kind` beside the name of a kind of step, of anything but a plan's task."""
    kinds = "|".join(sorted(KINDS_OF_STEP))
    names = re.compile(rf'^(?!.*task).*\bkind (?:===|!==) "(?:{kinds})"', re.MULTILINE)
    page = ROOT / "frontend"
    rooms = [*(page / "bench").rglob("*.js"), *page.glob("parts/paper-*.js"), *page.glob("parts/recipe-*.js")]
    named = [
        f"{path.relative_to(page)}: {found.group().strip()}"
        for path in sorted(rooms)
        if path.parent.name != "steps"
        for found in names.finditer(path.read_text(encoding="utf-8"))
    ]

    assert named == []


@pytest.mark.parametrize(
    "told",
    [
        'step["kind"] == "wait"',
        'each["kind"] in ("do", "melt")',
        "order.of(kind='split')",
        'kind != "pieces"',
    ],
)
def test_a_kind_that_is_named_is_seen(told):
    assert any(names_a_kind(node) for node in ast.walk(ast.parse(told)))


def test_no_function_is_over_forty_lines_and_no_class_over_three_hundred():
    most = {ast.FunctionDef: 40, ast.AsyncFunctionDef: 40, ast.ClassDef: 300}
    long = {
        f"{path.relative_to(ROOT)}: {node.name}"
        for path in [*(ROOT / "bench").rglob("*.py"), *(ROOT / "api").rglob("*.py")]
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if type(node) in most and (node.end_lineno or 0) - node.lineno >= most[type(node)]
    }

    assert long == set()


def test_no_line_of_the_page_is_over_120_letters():
    assert [
        f"{path.relative_to(ROOT)}:{number}"
        for path in sorted((ROOT / "frontend").rglob("*.js"))
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if len(line) > 120
    ] == []


def test_what_is_kept_is_no_link_out_of_the_tree():
    """A set-up that was borrowed by a link would be another's on any other machine."""
    kept = subprocess.run(["git", "ls-files", "--stage"], cwd=ROOT, capture_output=True, text=True).stdout
    assert [line for line in kept.splitlines() if line.startswith("120000")] == []


def test_every_module_of_figures_can_be_loaded() -> None:
    """`make perf` is no test, so what it imports could go without anybody's notice."""
    from tests.perf.__main__ import MODULES

    there = {path.stem for path in (ROOT / "tests" / "perf").glob("*_figures.py")}
    assert there == set(MODULES)
    for module in MODULES:
        importlib.import_module(f"tests.perf.{module}")


@pytest.mark.thorough
def test_that_is_left_to_chaos():
    """Of this kind is what `make test` leaves out."""
    assert IS_CHAOS


def test_what_is_left_out_is_run_by_make_chaos(request: pytest.FixtureRequest):
    """By all of it, wherever it stands: nothing but the marker chooses."""
    there = [request.node, *request.session.items]
    assert not any(item.get_closest_marker("thorough") for item in there) or IS_CHAOS
    now, left = for_now(there, all_of_them=False)
    assert len(now) + len(left) == len(there) and for_now(there, all_of_them=True) == (there, [])
    chaos = (ROOT / "Makefile").read_text(encoding="utf-8").split("\nchaos:")[1].split("\n\n")[0]
    assert "@BOWLSIDE_OFTEN=1 $(BIN)/pytest --quiet -m thorough tests\n" in chaos


def waits_for_nothing(tree: ast.AST, is_promised: set[str]) -> list[int]:
    """The lines that wait for a promise as if it were an answer: Playwright takes it for true, and never waits."""
    return [
        node.lineno
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and getattr(node.func, "attr", "") == "wait_for_function" and node.args
        for script in [node.args[0]]
        if getattr(script, "id", "") in is_promised
        or re.search(r"\basync\b|\.then\(|\bfetch\(", ast.unparse(script))
    ]


def test_no_test_waits_for_a_promise_that_is_true_at_once():
    trees = {path: ast.parse(path.read_text(encoding="utf-8")) for path in (ROOT / "tests").rglob("*.py")}
    is_promised = {
        name.id
        for tree in trees.values()
        for node in ast.walk(tree)
        if isinstance(node, ast.Assign) and re.match(r"\W*async\b", ast.unparse(node.value))
        for name in node.targets
        if isinstance(name, ast.Name)
    }

    assert "COPIED" in is_promised
    assert waits_for_nothing(
        ast.parse('page.wait_for_function("async () => 1"); page.wait_for_function(COPIED)'), {"COPIED"}
    )
    assert {
        str(path): lines for path, tree in trees.items() if (lines := waits_for_nothing(tree, is_promised))
    } == {}
