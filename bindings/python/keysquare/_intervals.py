"""Confidence intervals for rates and for the difference of two rates."""

from __future__ import annotations

from math import sqrt
from statistics import NormalDist
from typing import NamedTuple

CONFIDENCE = 0.95
"""Of the intervals that are shown to people."""


class Interval(NamedTuple):
    """A range of values; unpacks as `low, high`."""

    low: float
    """Its lower end."""
    high: float
    """Its upper end."""


def wilson(count: int, trials: int, confidence: float = CONFIDENCE) -> Interval:
    """Wilson's score interval for the rate of `count` in `trials` (E. B. Wilson, 1927), without continuity correction.

    Trials are taken to be independent of each other. Without trials nothing is known: 0 to 1.

    >>> low, high = wilson(4, 100)
    >>> round(low, 4), round(high, 4)
    (0.0157, 0.0984)
    """
    if not 0 <= count <= trials:
        raise ValueError("a count lies between 0 and the number of trials")
    if trials == 0:
        return Interval(0.0, 1.0)
    return wilson_of_mean(count / trials, trials, confidence)


def wilson_of_mean(mean: float, trials: int, confidence: float = CONFIDENCE) -> Interval:
    """Wilson's interval about the mean of numbers between 0 and 1, at least one.

    Exact for zeros and ones. Other numbers in these bounds vary less, so that it is wider than need be for them.
    """
    if not 0 <= mean <= 1 or trials < 1:
        raise ValueError("a mean of at least one number between 0 and 1 is wanted")
    z = _z(confidence)
    middle = (mean + z * z / (2 * trials)) / (1 + z * z / trials)
    half = z * sqrt(mean * (1 - mean) / trials + z * z / (4 * trials * trials)) / (1 + z * z / trials)
    return Interval(0.0 if mean == 0 else middle - half, 1.0 if mean == 1 else middle + half)


def newcombe(
    count: int, trials: int, other_count: int, other_trials: int, confidence: float = CONFIDENCE
) -> Interval:
    """Newcombe's hybrid score interval for the first rate minus the second (R. G. Newcombe, 1998, method 10).

    The two rates are taken to be independent of each other.

    >>> low, high = newcombe(56, 70, 48, 80)
    >>> round(low, 4), round(high, 4)
    (0.0524, 0.3339)
    """
    low, high = wilson(count, trials, confidence)
    other_low, other_high = wilson(other_count, other_trials, confidence)
    rate = count / trials if trials else 0.5
    other = other_count / other_trials if other_trials else 0.5
    difference = rate - other
    return Interval(
        difference - sqrt((rate - low) ** 2 + (other_high - other) ** 2),
        difference + sqrt((high - rate) ** 2 + (other - other_low) ** 2),
    )


def standardised_difference(count: int, trials: int, other_count: int, other_trials: int) -> float:
    """The difference of two rates over its standard error, the rates pooled; 0 where nothing can be said.

    >>> round(standardised_difference(40, 1000, 20, 1000), 2)
    2.62
    """
    if trials == 0 or other_trials == 0:
        return 0.0
    pooled = (count + other_count) / (trials + other_trials)
    error = sqrt(pooled * (1 - pooled) * (1 / trials + 1 / other_trials))
    return (count / trials - other_count / other_trials) / error if error else 0.0


def _z(confidence: float) -> float:
    if not 0 < confidence < 1:
        raise ValueError("a confidence lies between 0 and 1")
    return NormalDist().inv_cdf((1 + confidence) / 2)
