"""The one place where the tests touch the library's findings: turns them into plain data."""

from __future__ import annotations

import keysquare as ks

from .claim import Claim


def claim_of(finding: ks.Finding) -> Claim:
    return Claim(
        theme=str(finding.theme),
        detail=finding.detail or "none",
        side=str(finding.side),
        after_pass=finding.after_pass,
        mate=finding.mate,
        mated=finding.mated,
        removed=None if finding.removed is None else str(finding.removed),
        gain=finding.gain,
        squares=tuple(str(square) for square in finding.squares),
        pieces=tuple((str(placed.square), placed.piece.letter) for placed in finding.pieces),
        line=tuple(str(move) for move in finding.line),
        point=tuple(str(move) for move in finding.point),
        numbers=dict(finding.numbers),
    )


def claims_about(fen: str) -> list[Claim]:
    """Everything that the library says about a position."""
    return [claim_of(finding) for finding in ks.findings(ks.Position(fen))]
