"""The independent verifier: holds a claim against the rules of chess and against the documented meaning of its theme.

`verify(claim, fen)` returns what is wrong with a finding as a list of sentences; an empty list means that the finding is
true. It is written from the documentation of the themes and never loosened to let a finding pass.

Checked for every claim (`Foundation`):

- the line is legal from the position, after the pass and without the removed man where the claim says so, and starts
  with a move of `side`; the counterfactual position does not leave the waiting side in check;
- `gain` is the change of the material balance along the line; `mate` and `mated` are what stands at its end;
- a promise (`gain` >= 1 or `mate`) is kept: after each move of `side` the other side has no reply, inside the bound, that
  leaves `side` with less. Every reply is covered: a quiet one without check lets `side` stop at once, with the balance
  as it is (`Referee` asks whether that is enough); checks, captures and promotions are tried;
- a tactical promise (`every_reply.THEMES`) is held against every legal reply, quiet ones too, a reply that checks being
  answered first, and wins neither less nor more than it says; mates in one and two are tried out (`MateThemes`);
- a warning (`gain` <= 0 or `mated`) is real: after each move of `side` the other side gets at least what the line shows,
  and after each of its moves `side` has nothing better;
- the bound counts from the position after the line's first move, as documented for `value_of_move`;
- `point` is legal, and the men named stand where the claim says.

Then the theme's own definition is checked: `_check_<theme>` in the theme modules. For themes that count
(`CountedThemes`) everything that the position demands is worked out, so that the claim has to be one of these, and
`Verifier.omissions` names those that are left out.
"""

from __future__ import annotations

from .claim import Claim
from .foundation import Lie, require
from .king_themes import KingThemes
from .mobility_themes import MobilityThemes
from .pawn_themes import PawnThemes
from .piece_quality import PieceQuality
from .square_themes import MaterialThemes, SquareThemes
from .tactical_themes import TacticalThemes


class Verifier(TacticalThemes, MobilityThemes, PieceQuality, SquareThemes, MaterialThemes, PawnThemes, KingThemes):
    """Checks the claims about one position. Searches that several claims need are done once."""

    def violations(self, claim: Claim) -> list[str]:
        """What is wrong with the claim; empty when it is true."""
        try:
            start = self.start_of(claim)
            self.check_line(claim, start)
            if claim.theme in self.counted_themes():
                self.check_counted(claim)
                return []
            check = getattr(self, f"_check_{claim.theme}", None)
            require(check, f"no check is written for the theme {claim.theme}")
            check(claim, start)
        except Lie as lie:
            return [str(lie)]
        except (ValueError, IndexError, KeyError) as error:
            return [f"malformed claim: {error!r}"]
        return []


def verify(claim: Claim, fen: str) -> list[str]:
    """What is wrong with the claim about the position, empty when it is true."""
    return Verifier(fen).violations(claim)
