"""Says what a good teacher sees in a chess position, with proof.

>>> import keysquare as ks
>>> position = ks.Position("4k3/8/8/3r4/8/4N3/8/4K3 w - - 0 1")
>>> for finding in ks.findings(position, themes=["hanging"]):
...     print(finding)
White can win material worth 5 pawns with Nxd5: the rook on d5 has no guard.

Squares, sides and pieces are text: give "e4", "white", and get back `Square`, `Side` and `Piece`, which are texts that know
a little more. What can't be read raises `InputError`, which names the reason and the place; a parameter outside its range
raises ValueError.
"""

from keysquare._core import (
    FeatureTable,
    Finding,
    Game,
    GameStep,
    GameReader,
    Move,
    Position,
    __version__,
    check_plan,
    colour_complex,
    exchange,
    exchange_context,
    feature_schema,
    features,
    findings,
    guardian,
    mobility,
    perft,
    game_from_text,
    read_games,
    resolve,
    route,
    square_control,
    themes,
)
from keysquare._diagrams import Arrow, Mark, SvgText, diagram
from keysquare._results import (
    ColourComplex,
    Compensation,
    ComplexSide,
    ControlledSquare,
    Destination,
    ExchangeLedger,
    FeatureColumn,
    FeatureSchema,
    FreePlay,
    Grasp,
    Grip,
    Guardian,
    GuardianGone,
    KingShelter,
    LedgerPage,
    Mobility,
    Outcome,
    PlanCheck,
    PlanStep,
    ReadingCounts,
    RefusedGame,
    RegionCounts,
    Route,
    Routes,
    Spoiler,
    SquareControl,
)
from keysquare._values import BLACK, WHITE, InputError, Piece, Placed, Side, Square

__all__ = [
    "Arrow",
    "BLACK",
    "ColourComplex",
    "Compensation",
    "ComplexSide",
    "ControlledSquare",
    "Destination",
    "ExchangeLedger",
    "FeatureColumn",
    "FeatureSchema",
    "FeatureTable",
    "Finding",
    "FreePlay",
    "Game",
    "GameStep",
    "GameReader",
    "Grasp",
    "Grip",
    "Guardian",
    "GuardianGone",
    "InputError",
    "KingShelter",
    "LedgerPage",
    "Mark",
    "Mobility",
    "Move",
    "Outcome",
    "Piece",
    "Placed",
    "PlanCheck",
    "PlanStep",
    "Position",
    "ReadingCounts",
    "RefusedGame",
    "RegionCounts",
    "Route",
    "Routes",
    "Side",
    "Spoiler",
    "Square",
    "SquareControl",
    "SvgText",
    "WHITE",
    "__version__",
    "check_plan",
    "colour_complex",
    "diagram",
    "exchange",
    "exchange_context",
    "feature_schema",
    "features",
    "findings",
    "guardian",
    "mobility",
    "perft",
    "game_from_text",
    "read_games",
    "resolve",
    "route",
    "square_control",
    "themes",
]

# Users know these by the package; where a class is written down is our business.
for _name in __all__:
    if isinstance(_public := globals()[_name], type):
        _public.__module__ = "keysquare"
del _name, _public
