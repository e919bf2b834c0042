"""Commands in the language of whoever types them: `--language`, else LC_ALL or LANG, else English.

A command and an option are given the end of a message's key for a help text, "cli-help-…". It is worded when the help
is asked for, so that nothing is worded, and nothing that words need is imported, before.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import Any

import click

OPTION = "--language"
# As gettext asks for them (https://www.gnu.org/software/gettext/manual, Locale Environment Variables).
LOCALES = ("LC_ALL", "LC_MESSAGES", "LANG")


def language_of(arguments: Sequence[str], environ: Mapping[str, str]) -> str:
    """The language to speak: an unknown one is no reason to be silent."""
    from bench import words

    locale = next((environ[name] for name in LOCALES if environ.get(name)), "")
    for wanted in (*_chosen(arguments), locale.replace("_", "-").partition("-")[0]):
        if wanted in words.languages():
            return wanted
    return words.DEFAULT


def _chosen(arguments: Sequence[str]) -> list[str]:
    named = [each.partition("=")[2] for each in arguments if each.startswith(f"{OPTION}=")]
    after = [each for before, each in zip(arguments, arguments[1:], strict=False) if before == OPTION]
    return [*named, *after]


def tags() -> str:
    from bench import words

    return ", ".join(words.languages())


def _help(code: str | None) -> str | None:
    from bench import words

    if not code:
        return None
    return (
        words.say("cli-spoken-option", tags=tags()) if code == "language" else words.say(f"cli-help-{code}")
    )


class _Coded:
    """Its `help` is a code, worded when it is asked for."""

    _code: str | None = None

    @property
    def help(self) -> str | None:
        return _help(self._code)

    @help.setter
    def help(self, code: str | None) -> None:
        self._code = code


class Option(_Coded, click.Option):
    """An option in the language of whoever asks for help."""


class Formatter(click.HelpFormatter):
    def write_usage(self, prog: str, args: str = "", prefix: str | None = None) -> None:
        super().write_usage(prog, args, prefix or f"{_help('usage')} ")

    def write_heading(self, heading: str) -> None:
        super().write_heading(_help(heading.lower()) or heading)


class Context(click.Context):
    formatter_class = Formatter


class Command(_Coded, click.Command):
    """A command in the language of whoever asks for help."""

    context_class = Context

    def get_help_option(self, ctx: click.Context) -> click.Option | None:
        option = super().get_help_option(ctx)
        if option is not None:
            option.help = _help("help")
        return option

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        with _in_our_words(ctx, [*args]):
            return super().parse_args(ctx, args)


class Group(Command, click.Group):
    def main(self, args: Sequence[str] | None = None, *more: Any, **named: Any) -> Any:
        from bench import words

        with words.speaking(language_of(sys.argv[1:] if args is None else args, os.environ)):
            return super().main(args, *more, **named)

    def resolve_command(self, ctx: click.Context, args: list[str]) -> Any:
        with _in_our_words(ctx, [*args]):
            return super().resolve_command(ctx, args)


class WrongUsage(click.UsageError):
    """How a command was called is wrong: the message says so itself."""

    def show(self, file: Any = None) -> None:
        from api.plain import say

        if self.ctx is not None:
            say(self.ctx.get_usage(), err=True)
        say(self.format_message(), err=True)


@contextmanager
def _in_our_words(ctx: click.Context, args: list[str]) -> Iterator[None]:
    """What the library finds wrong with a call it says in English alone: here it is said in the language spoken."""
    try:
        yield
    except (WrongUsage, click.exceptions.NoArgsIsHelpError):
        raise
    except click.UsageError as error:
        raise WrongUsage(_wrong(error, ctx, args), ctx) from None


def _wrong(error: click.UsageError, ctx: click.Context, args: list[str]) -> str:
    from bench import words

    if isinstance(error, click.NoSuchOption):
        return words.say("cli-spoken-no-option", name=error.option_name)
    if isinstance(error, click.BadOptionUsage):
        own = (each for each in ctx.command.params if error.option_name in each.opts)
        is_flag = any(getattr(each, "is_flag", False) for each in own)
        if is_flag:
            return words.say("cli-spoken-takes-no-value", name=error.option_name)
        return words.say("cli-spoken-needs-value", name=error.option_name)
    if isinstance(error, click.BadParameter) and error.param:
        name = error.param.get_error_hint(ctx).replace("'", "")
        if isinstance(error, click.MissingParameter):
            return words.say("cli-spoken-missing", name=name)
        value = _given(error.param, ctx, args)
        return words.say("cli-spoken-bad-value", name=name, value=value, takes=_taken(error.param.type))
    if isinstance(ctx.command, click.Group):
        names = ", ".join(ctx.command.list_commands(ctx))
        return words.say("cli-spoken-no-command", name=args[0], names=names)
    return words.say("cli-spoken-too-many")


def _given(param: click.Parameter, ctx: click.Context, args: list[str]) -> str:
    """What was written for an option or argument, as it was."""
    values, _, _ = ctx.command.make_parser(ctx).parse_args(args)
    return str(values.get(param.name or "", ""))


def _taken(kind: click.ParamType[Any]) -> str:
    """What a value must be."""
    from bench import words

    if isinstance(kind, click.Choice):
        return words.say("cli-spoken-one-of", names=", ".join(map(str, kind.choices)))
    if isinstance(kind, click.IntRange) and kind.max is not None:
        return words.say("cli-spoken-from-to", least=str(kind.min), most=str(kind.max))
    if isinstance(kind, click.DateTime):
        return words.say("cli-spoken-day")
    return words.say("cli-spoken-file") if isinstance(kind, click.Path) else words.say("cli-spoken-whole")


def command(code: str, name: str | None = None) -> Callable[[Callable[..., Any]], click.Command]:
    return click.command(name or code, cls=Command, help=code)


def option(*names: str, **given: Any) -> Callable[[Any], Any]:
    """help: a code."""
    return click.option(*names, cls=Option, **given)
