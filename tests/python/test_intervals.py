"""Intervals for rates and their differences, against SciPy and against published examples."""

import math

import pytest
from scipy import stats  # type: ignore[import-untyped]

from keysquare._intervals import newcombe, standardised_difference, wilson

COUNTS = [(0, 1), (1, 1), (0, 10), (3, 10), (10, 10), (1, 57), (29, 613), (400, 401), (7, 20_000), (12_345, 98_765)]


@pytest.mark.parametrize(("count", "trials"), COUNTS)
@pytest.mark.parametrize("confidence", [0.5, 0.95, 0.9987])
def test_wilson_is_what_scipy_computes(count: int, trials: int, confidence: float) -> None:
    # SciPy: binomtest(...).proportion_ci(method="wilson").
    expected = stats.binomtest(count, trials).proportion_ci(confidence, method="wilson")
    low, high = wilson(count, trials, confidence)
    assert math.isclose(low, expected.low, abs_tol=1e-12)
    assert math.isclose(high, expected.high, abs_tol=1e-12)


# R. G. Newcombe, "Interval estimation for the difference between independent proportions", Statistics in Medicine 17
# (1998), table II, method 10. The figures are from memory.
PUBLISHED = [
    ((56, 70, 48, 80), (0.0524, 0.3339)),
    ((9, 10, 3, 10), (0.1705, 0.8090)),
    ((6, 7, 2, 7), (0.0582, 0.8062)),
    ((5, 56, 0, 29), (-0.0381, 0.1926)),
    ((0, 10, 0, 20), (-0.1611, 0.2775)),
    ((0, 10, 0, 10), (-0.2775, 0.2775)),
    ((10, 10, 0, 20), (0.6791, 1.0000)),
    ((10, 10, 0, 10), (0.6075, 1.0000)),
]


@pytest.mark.parametrize(("counts", "expected"), PUBLISHED)
def test_newcombe_gives_the_published_intervals(
    counts: tuple[int, int, int, int], expected: tuple[float, float]
) -> None:
    assert newcombe(*counts) == pytest.approx(expected, abs=5e-5)


def test_newcombe_is_the_hybrid_of_two_wilson_intervals_by_scipy() -> None:
    # The formula of the paper, on SciPy's Wilson intervals.
    for count, trials in COUNTS:
        for other_count, other_trials in COUNTS:
            first, second = (
                stats.binomtest(*pair).proportion_ci(method="wilson")
                for pair in ((count, trials), (other_count, other_trials))
            )
            a, b = count / trials, other_count / other_trials
            low = a - b - math.hypot(a - first.low, second.high - b)
            high = a - b + math.hypot(first.high - a, b - second.low)
            ours = newcombe(count, trials, other_count, other_trials)
            assert math.isclose(ours.low, low, abs_tol=1e-12) and math.isclose(ours.high, high, abs_tol=1e-12)
            theirs = newcombe(other_count, other_trials, count, trials)
            assert theirs == pytest.approx((-ours.high, -ours.low), abs=1e-12)


def test_the_standardised_difference_is_the_root_of_chi_square() -> None:
    # SciPy: chi2_contingency without correction; the square of the pooled z is the statistic of the fourfold table.
    for counts in [(40, 1000, 20, 1000), (3, 50, 9, 900), (1, 7, 6, 8)]:
        count, trials, other_count, other_trials = counts
        table = [[count, trials - count], [other_count, other_trials - other_count]]
        statistic = stats.chi2_contingency(table, correction=False).statistic
        assert standardised_difference(*counts) ** 2 == pytest.approx(statistic, rel=1e-12)
        assert math.copysign(1, standardised_difference(*counts)) == math.copysign(
            1, count / trials - other_count / other_trials
        )


def test_what_can_not_be_known() -> None:
    assert wilson(0, 0) == (0, 1)
    assert newcombe(0, 0, 0, 0)[0] < -0.7 and newcombe(0, 0, 0, 0)[1] > 0.7
    assert standardised_difference(0, 0, 3, 10) == standardised_difference(0, 5, 0, 10) == 0
    assert wilson(0, 20).low == 0 and wilson(20, 20).high == 1
    for bad in ((-1, 3), (4, 3)):
        with pytest.raises(ValueError):
            wilson(*bad)
    with pytest.raises(ValueError):
        wilson(1, 2, 1.0)
