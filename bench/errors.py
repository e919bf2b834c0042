"""What can be wrong, said to the maker.

One base class, one subclass for each thing a caller could handle differently.
No HTTP here: `api` keeps the table from these classes to status codes.
"""


class BenchError(ValueError):
    """Something in the input cannot be worked with.

    where: dotted path into the input, e.g. "components.0.lines.2.amount"; "" is the whole.
    says: one or two sentences that name the fault and the way out.
    """

    def __init__(self, where: str, says: str) -> None:
        self.where = where
        self.says = says
        super().__init__(f"{where}: {says}" if where else says)


class AmountError(BenchError):
    """A written amount, duration or density cannot be read."""


class RecipeError(BenchError):
    """A recipe document does not hold together."""


class KitError(BenchError):
    """A kit document does not hold together, or lacks what the recipe needs."""


class SizeError(BenchError):
    """The batch cannot be made at this size."""


class EntryError(BenchError):
    """A journal entry is malformed."""


class SettingError(BenchError):
    """A setting of the studio does not hold together, or lacks what is asked of it."""


class PlanError(BenchError):
    """The day as asked cannot be planned: the input is at fault, not the order of the steps."""
