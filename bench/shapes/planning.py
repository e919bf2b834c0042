"""Planning: bench hours as written, a problem (tasks, gaps, holds), a plan, and what to begin next.

An instant is whole ms, a duration too. A step's id is the sheet's, after "run/" where a run has a name.
"""

from typing import Literal, NotRequired, TypeAlias, TypedDict

from bench.shapes.units import InstantMs, Ms

TaskKind = Literal["hands", "wait", "free"]
TakesFrom = Literal["recipe", "planned bursts", "common practice", "own runs"]
TaskStatus = Literal["open", "begun", "done"]
GapWhy = Literal["after", "wait", "window", "keeps"]
GapClass = Literal["ruin", "back", "quality"]
PlanStatus = Literal["proven", "found", "impossible", "unknown"]
PlannedBy = Literal["solver", "rule"]
PlanAimName = Literal["finish", "ready_by"]
AimName = Literal["unkept", "share", "finish", "start", "sessions", "span", "changes", "moved"]
Suggestion = Literal["late", "over", "longer"]  # what a reason looks for: no aim of a plan
WhyNow = Literal["window", "opens", "starts_wait", "frees", "late_last", "meanwhile", "next"]
ReasonKind = Literal["circle", "too_long", "hours", "rules", "ready_by"]

Stretch: TypeAlias = list[InstantMs]  # [opens, closes]
ClockPair: TypeAlias = list[str]  # such as ["9:00", "12:30"]


class HoursWritten(TypedDict):
    """Bench hours by a place's clock. A date's own stand before a weekday's, those before the daily ones."""

    zone: str  # such as Europe/London
    daily: NotRequired[list[ClockPair]]  # such as ["9:00", "12:30"]; "24:00" ends a day
    days: NotRequired[dict[str, list[ClockPair]]]  # by mon, tue, wed and so on
    dates: NotRequired[dict[str, list[ClockPair]]]  # by 2026-11-28


class MakerWritten(TypedDict):
    """A maker as the studio says it."""

    name: str
    hours: HoursWritten


class MakerHours(TypedDict):
    """A maker and when the bench is theirs."""

    name: str
    hours: list[Stretch]  # in order and apart


class Equipment(TypedDict):
    """One of the few things of a kit that steps share."""

    name: str
    many: int  # how many there are; moulds are counted in cavities


class TaskProgress(TypedDict):
    """How far a step has come."""

    status: TaskStatus
    began_at: InstantMs | None  # None: not begun, or nobody knows when
    ended_at: InstantMs | None  # None: not done
    left_ms: Ms  # still to do of a begun step from began_at, or from now when that is None; else takes_ms


class Task(TaskProgress):
    """A step of a sheet as it is planned."""

    id: str
    run: str  # "" where there is one run without a name
    component: str
    letter: str
    round: int
    title: str
    kind: TaskKind  # hands: holds a maker; wait: goes on by itself from the end of the last of its needs; free: neither
    takes_ms: Ms
    takes_from: TakesFrom
    uses: dict[str, int]  # equipment -> how many


Gap = TypedDict(
    "Gap",
    {
        "from": list[str],  # counted from the end of the last of these steps
        "to": str,  # the step that begins
        "least_ms": int | None,  # it begins at least so long after; None: whenever
        "most_ms": int | None,  # it begins at most so long after; None: whenever
        "why": GapWhy,
        "stake": str,  # what missing it costs, in words; "" when nobody said
        "state": NotRequired[str],  # what it is over, where the stake is common practice
        "class": NotRequired[GapClass],  # none: no state is open in it
        "price_ms": NotRequired[Ms],  # of the hands, to bring back what was left too long
        "lost_ms": NotRequired[
            Ms | None
        ],  # over by more than this there is no way back; None: time never takes it
    },
)


class BrokenGap(Gap):
    """A gap that a plan does not keep."""

    over_ms: Ms


Hold = TypedDict(
    "Hold",
    {
        "equipment": str,
        "many": int,
        "from": str,  # from the start of this step
        "until": str,  # to the end of this one
        "vessel": NotRequired[str],  # the name of the bowl or jug that it is at the bench
    },
)


class TasksOfRun(TypedDict):
    """What there is to do of one sheet."""

    tasks: list[Task]
    gaps: list[Gap]
    holds: list[Hold]
    equipment: dict[str, Equipment]


class Problem(TasksOfRun):
    """What is planned: all that there is to do at one bench, and the hands and hours for it."""

    since: InstantMs  # the first instant to plan from
    ready_by: NotRequired[InstantMs | None]  # all ends by then; None: whenever
    zone: NotRequired[str]  # whose clock the reasons speak in
    names: NotRequired[
        dict[str, str]
    ]  # run -> what its batch is called, said with each step where there are several
    makers: list[MakerHours]


class PlanAim(TypedDict):
    """One aim of a plan: instants for finish and start, ms for span, how many for all else."""

    aim: AimName
    value: int
    bound: int | None  # nothing is better than this; None: not known
    proven: bool


class StepNamed(TypedDict):
    """What a step is called."""

    title: str
    batch: NotRequired[str]  # its batch by name, where several are planned


class WhyStep(TypedDict):
    """Why a step stands where it does."""

    kind: WhyNow
    steps: list[str]  # the steps that it has to do with
    named: NotRequired[list[StepNamed]]  # what these are called; none in plans of earlier versions
    ms: NotRequired[Ms]  # how soon after, how long, or how long it has, by its kind
    last: NotRequired[bool]  # the finish hangs on it
    vessel: NotRequired[str]  # what it empties
    shape: NotRequired[str]  # of the moulds that it empties
    stake: NotRequired[str]  # what missing it costs, in the recipe's own words
    state: NotRequired[str]  # whose common stake that is, where the recipe has no words
    says: NotRequired[str]  # in words: as the API gives it, and in plans of earlier versions


class PlanStep(TypedDict):
    """A step of a plan."""

    id: str
    run: str
    component: str
    letter: str
    round: int
    title: str
    kind: TaskKind
    status: TaskStatus
    starts_at: InstantMs
    ends_at: InstantMs
    maker: int | None  # its place in makers; None: no hands
    session: int | None  # its place in sessions; None: in none
    slack_ms: Ms | None  # how far it can slip, nothing later at the end; None: only the rule made the plan
    critical: bool  # no slack
    why: WhyStep | None  # None: it is in no session


class PlanSession(TypedDict):
    """A stretch of bench hours that a plan uses."""

    maker: int  # its place in makers
    opens_at: InstantMs
    closes_at: InstantMs
    begins_at: InstantMs
    ends_at: InstantMs
    hands_ms: Ms
    steps: list[str]


class GapChange(TypedDict):
    """Give one gap more time."""

    what: Literal["gap"]
    gap: Gap
    title: str  # of the step that may come later
    ms: Ms


class HoursChange(TypedDict):
    """Close the bench later."""

    what: Literal["hours"]
    ms: Ms
    maker: NotRequired[int]  # its place in makers; none: any
    closes_at: NotRequired[InstantMs]  # the stretch that closes then; none: any


class StartChange(TypedDict):
    """Begin earlier."""

    what: Literal["start_by"]
    at: InstantMs
    ms: Ms


class ReadyChange(TypedDict):
    """Be ready later."""

    what: Literal["ready_by"]
    at: InstantMs
    ms: Ms


PlanChange = GapChange | HoursChange | StartChange | ReadyChange


class PlanReason(TypedDict):
    """Why a day cannot be done, and the smallest changes found that would do."""

    kind: ReasonKind
    steps: list[str]
    gaps: list[Gap]
    change: list[PlanChange]
    named: NotRequired[
        dict[str, StepNamed]
    ]  # what the steps of all these are called; none in earlier versions
    zone: NotRequired[str]  # whose clock it speaks in
    takes_ms: NotRequired[Ms]  # of the step that is too long
    says: NotRequired[str]  # in words: as the API gives it, and in plans of earlier versions


class RunDue(TypedDict):
    """When one run is to be ready."""

    run: str
    ready_by: InstantMs
    begins_at: InstantMs | None  # the latest start; None: there is none
    why: str  # why it cannot be ready by then, in words, as the API gives it; "" when it can
    late: NotRequired[Literal["past", "unfound"]]  # why not, where no reason says it
    reason: NotRequired[PlanReason]  # why not


class Plan(TypedDict):
    """The best order found, and how good it is known to be."""

    status: PlanStatus  # proven: no better first aim exists; unknown: nothing keeps every rule, and no proof of that
    by: PlannedBy
    aim: PlanAimName
    since: InstantMs
    ready_by: InstantMs | None  # None: whenever
    cancelled: bool
    stays: bool  # hands stay on each state that does not keep until it ends, with room for slow hands
    bound_at: InstantMs | None  # nothing finishes before this, whatever the order; None: not known
    aims: list[PlanAim]  # in their order
    reasons: list[PlanReason]  # why it is impossible
    begins_at: InstantMs | None  # the first start of hands; None: none is left
    finish_at: InstantMs | None  # None: nothing was planned
    steps: list[PlanStep]  # in order of start, history included
    sessions: list[PlanSession]
    broken: list[BrokenGap]  # the gaps not kept; only while live, or with status unknown
    due: NotRequired[list[RunDue]]  # only where runs are ready by instants of their own


class UsablePlan(TypedDict):
    """Word of the first plan that can be followed."""

    aim: Literal["usable"]
    plan: Plan


class AimProgress(TypedDict):
    """Word of how far the search is."""

    aim: AimName | Suggestion
    value: int | None  # None as an aim begins
    work: float  # the share left, 1 to 0


Progress = UsablePlan | AimProgress


class GapOver(TypedDict):
    """A gap that breaks, and by how much."""

    gap: Gap
    over_ms: Ms


class PlainAdvice(TypedDict):
    """next: in plan order; sooner: something else would end later; wait: nothing is ready; closed: no bench hours now."""

    kind: Literal["next", "sooner", "finished", "wait", "closed", "no_hours"]


class WindowAdvice(TypedDict):
    """Begun now, a gap would break."""

    kind: Literal["window"]
    step: str
    gap: NotRequired[Gap]  # none: no layout of the rest was found
    over_ms: NotRequired[Ms]
    closes_at: NotRequired[InstantMs]


class HoursAdvice(TypedDict):
    """hours: it would run past the bench hours; ends_sooner: waiting ends the day earlier."""

    kind: Literal["hours", "ends_sooner"]
    step: str
    closes_at: InstantMs


class RestAdvice(TypedDict):
    """Nothing else is begun: a step of a state that is open, and does not keep, comes in a few minutes."""

    kind: Literal["rest"]
    step: str


class StayAdvice(TypedDict):
    """Past the bench hours, because all else is worse."""

    kind: Literal["stay"]
    by_ms: Ms
    closes_at: InstantMs


WhyNext = PlainAdvice | WindowAdvice | HoursAdvice | RestAdvice | StayAdvice


class Advice(TypedDict):
    """The step to begin now, or until when to wait, and why."""

    step: str | None  # None: begin nothing
    until: InstantMs | None  # when to ask again, at the latest; None: when something is entered
    why: WhyNext
    pace: int  # how slow hands may be, in thousandths, with all gaps kept; 0 when some break
    broken: list[GapOver]
    risk: (
        GapOver | None
    )  # the worst that hands that are slow would still break, to be said before; None: nothing


class IfStopped(TypedDict):
    """What happens if nothing is begun for a while."""

    finish_at: InstantMs | None  # None: the day does not fit then
    later_ms: int | None  # None: one of the two days does not fit
    broken: list[GapOver]  # what would break that does not now


class MakerOption(TypedDict):
    """One more pair of hands."""

    what: Literal["second_maker"]
    problem: Problem


class TimeOption(TypedDict):
    """An hour more on one session."""

    what: Literal["extra_time"]
    maker: int
    closes_at: InstantMs
    ms: Ms
    problem: Problem


class MouldOption(TypedDict):
    """One more set of a mould."""

    what: Literal["mould"]
    name: NotRequired[str]
    problem: Problem


TimeSavingOption = MakerOption | TimeOption | MouldOption


class TimeSaving(TypedDict):
    """What one more of something would save."""

    what: Literal["second_maker", "extra_time", "mould"]
    maker: NotRequired[int]  # whose session, for extra_time
    closes_at: NotRequired[InstantMs]  # when it closes now, for extra_time
    ms: NotRequired[Ms]  # how much longer, for extra_time
    name: NotRequired[str]  # of the mould
    finish_at: InstantMs | None  # None: no plan was found
    saves_ms: int | None  # None: one of the two has no plan
    sessions: int | None  # None: no plan was found
    saves_sessions: int | None  # None: one of the two has no plan
    proven: bool


# A plan as the server keeps it

PlanState = Literal["working", "made", "refused"]


class PlannedPart(TypedDict):
    """What a plan is of."""

    run: str  # what stands before the / in its steps
    title: str
    name: NotRequired[str]  # its batch number, else what it is; none in plans of earlier versions


class PlanProgress(TypedDict):
    """How far the work on a plan is."""

    aim: AimName | Suggestion
    share: float  # of the work that is left, 1 to 0


class PlanFault(TypedDict):
    """Why there is no plan."""

    field: str
    detail: str


class TimeSavingSaid(TimeSaving):
    """What one more of something would save, in words."""

    says: str


class KeptPlan(TypedDict):
    """A plan as it was kept. It is never derived again, only planned anew when the day has moved."""

    id: str
    at: InstantMs  # now, by the server's clock
    state: PlanState  # working: a better one is being looked for
    asked_at: InstantMs
    aim: PlanAimName
    ready_by: InstantMs | None  # None: whenever
    runs: list[str]  # the runs it is of
    due: list[RunDue]
    out: list[str]  # runs that were left out
    limit: float  # seconds after which the search ends in any case
    parts: list[PlannedPart]
    progress: PlanProgress | None  # None: nobody is at it
    fault: PlanFault | None  # None: none
    made_at: InstantMs | None  # None: there is no plan yet
    age_ms: Ms | None  # None: there is no plan yet
    behind: int  # entries that came since; 0 means it is up to date
    plan: Plan | None  # None: there is none yet
    hands_ms: dict[str, Ms]  # step -> the maker's own time, where runs have taught it
    savings: list[TimeSavingSaid]
    says: str  # how good it is known to be, in one line
