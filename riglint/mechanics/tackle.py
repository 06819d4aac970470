"""Tackle by doctrine and by the riggers' tables: ratio, friction of the sheaves, fall line, dead line."""

from math import ceil, floor, inf
from typing import Final, NamedTuple

from riglint.mechanics._refuse import refuse
from riglint.mechanics.provenance import LESSON_63H34F01, RIGGERS_HANDBOOK, WIRE_ROPE_MANUAL, Figure

SHEAVE_LOSS: Final = Figure(0.10, LESSON_63H34F01, "supplement 1b, tackle resistance", "read second hand")

# Growth of tension from one part to the next.
PLAIN_SHEAVE: Final = Figure(1.09, WIRE_ROPE_MANUAL, "pp. 86-88, plain bearings", "read")
ROLLER_SHEAVE: Final = Figure(1.04, WIRE_ROPE_MANUAL, "pp. 86-88, antifriction bearings", "read")
BUSHED_SHEAVE: Final = Figure(1.045, RIGGERS_HANDBOOK, "ratio table, bronze bushed, fitted", "derivation")
BALL_SHEAVE: Final = Figure(1.02, RIGGERS_HANDBOOK, "ratio table, antifriction, fitted", "derivation")

_COUNT_SLACK = 1e-9  # rounding in a division must not add a part


class DoctrineTackle(NamedTuple):
    """The doctrine's steps for one pull, in their order."""

    ratio_count: int
    sheave_count: int
    tackle_n: float
    total_n: float
    fall_line_n: float


def required_ratio_count(load_n: float, winch_n: float) -> int:
    """First guess at the mechanical ratio: load over winch, rounded up.

    Equation: m = ceil(LR / C), at least 1
    Units: LR load resistance [N], C winch capacity [N]
    Range: LR >= 0, C > 0
    Source: Army lesson 63H34F01, supplement 1b, read second hand
    Raises: ValueError outside the range
    """
    if not 0.0 <= load_n < inf:
        raise refuse("load_n", load_n, "finite and not negative")
    if not 0.0 < winch_n < inf:
        raise refuse("winch_n", winch_n, "finite and above 0")
    return max(1, ceil(load_n / winch_n - _COUNT_SLACK))


def tackle_resistance_n(load_n: float, sheave_count: int) -> float:
    """What the sheaves themselves cost, by doctrine.

    Equation: TR = 0.10 LR s
    Units: LR load resistance [N], s number of sheaves (not of blocks)
    Range: LR >= 0, s >= 0
    Source: FM 4-30.31 ch. 3 by lesson 63H34F01, read second hand; NAVEDTRA Steelworker, read
    Raises: ValueError outside the range
    """
    if not 0.0 <= load_n < inf:
        raise refuse("load_n", load_n, "finite and not negative")
    if sheave_count < 0:
        raise refuse("sheave_count", sheave_count, "0 or more")
    return SHEAVE_LOSS.value * load_n * sheave_count


def total_resistance_n(load_n: float, sheave_count: int) -> float:
    """Load resistance and tackle resistance together.

    Equation: R = LR + TR = LR (1 + 0.10 s)
    Units: LR load resistance [N], s number of sheaves
    Range: LR >= 0, s >= 0
    Source: TB 9-2350-292-10, step 4, read; lesson 63H34F01, read second hand
    Raises: ValueError outside the range
    """
    return load_n + tackle_resistance_n(load_n, sheave_count)


def fall_line_n(total_n: float, ratio_count: int) -> float:
    """Force in the line to the winch, by doctrine. It must be LESS than the winch can pull.

    Equation: F = R / m
    Units: R total resistance [N], m mechanical ratio
    Range: R >= 0, m >= 1
    Source: TB 9-2350-292-10, step 5, read
    Raises: ValueError outside the range
    """
    if not 0.0 <= total_n < inf:
        raise refuse("total_n", total_n, "finite and not negative")
    if ratio_count < 1:
        raise refuse("ratio_count", ratio_count, "1 or more")
    return total_n / ratio_count


def dead_line_n(line_n: float, lines_count: int) -> float:
    """Force in a dead line that holds so many parts of the winch line.

    Equation: D = F n
    Units: F fall line force [N], n winch lines that the dead line supports
    Range: F >= 0, n >= 1
    Source: lesson 63H34F01, supplement 1b, read second hand
    Raises: ValueError outside the range
    """
    if not 0.0 <= line_n < inf:
        raise refuse("line_n", line_n, "finite and not negative")
    if lines_count < 1:
        raise refuse("lines_count", lines_count, "1 or more")
    return line_n * lines_count


def effort_available_n(winch_n: float, ratio_count: int) -> float:
    """What the winch and its tackle bring together before friction.

    Equation: E = C m
    Units: C winch capacity [N], m mechanical ratio
    Range: C > 0, m >= 1
    Source: TB 9-2350-292-10, step 4, read
    Raises: ValueError outside the range
    """
    if not 0.0 < winch_n < inf:
        raise refuse("winch_n", winch_n, "finite and above 0")
    if ratio_count < 1:
        raise refuse("ratio_count", ratio_count, "1 or more")
    return winch_n * ratio_count


def doctrine_tackle(load_n: float, winch_n: float) -> DoctrineTackle | None:
    """Doctrine's steps to the first ratio whose fall line is less than the winch; None if none is.

    Equation: the smallest m >= ceil(LR / C) with LR (1 + 0.10 (m - 1)) / m < C; sheaves m - 1
    Units: LR load resistance [N], C winch capacity [N]
    Range: LR >= 0, C > 0. No ratio helps once C <= 0.10 LR, since each sheave adds that much
    Source: lesson 63H34F01, supplement 1b, read second hand; the closed form is a derivation
    Raises: ValueError outside the range
    """
    first = required_ratio_count(load_n, winch_n)
    spare_n = winch_n - SHEAVE_LOSS.value * load_n
    if spare_n <= 0.0:
        return None
    ratio = max(first, floor((1.0 - SHEAVE_LOSS.value) * load_n / spare_n))
    total_n = total_resistance_n(load_n, ratio - 1)
    if total_n / ratio >= winch_n * (1.0 - _COUNT_SLACK):  # equal is not less
        ratio += 1
        total_n = total_resistance_n(load_n, ratio - 1)
    return DoctrineTackle(ratio, ratio - 1, total_n - load_n, total_n, total_n / ratio)


def lead_line_factor(parts_count: int, sheave_factor: float, lead_sheaves_count: int = 0) -> float:
    """Pull on the lead line for a load of 1.

    Equation: f = K^N (K - 1) / (K^N - 1) K^e;  1/N for K = 1
    Units: N parts, K growth of tension over one sheave, e lead sheaves beyond the tackle
    Range: N >= 1, 1 <= K <= 2, e >= 0
    Source: Wire Rope Users Manual pp. 86-88 (4 parts plain 0.309), read; the law behind it is a derivation
    Raises: ValueError outside the range
    """
    ratio = tackle_ratio(parts_count, sheave_factor)
    if lead_sheaves_count < 0:
        raise refuse("lead_sheaves_count", lead_sheaves_count, "0 or more")
    return sheave_factor**lead_sheaves_count / ratio


def tackle_ratio(parts_count: int, sheave_factor: float) -> float:
    """Load moved by a line pull of 1: the real ratio of a tackle, below the number of parts.

    Equation: r = sum of K^-i for i = 1..N, the reciprocal of the lead line factor
    Units: N parts, K growth of tension over one sheave
    Range: N >= 1, 1 <= K <= 2
    Source: riggers' handbooks, ratio tables, read; the law behind them is a derivation
    Raises: ValueError outside the range
    """
    if parts_count < 1:
        raise refuse("parts_count", parts_count, "1 or more")
    if not 1.0 <= sheave_factor <= 2.0:
        raise refuse("sheave_factor", sheave_factor, "1 to 2")
    if sheave_factor - 1.0 < 1e-9:  # the closed form divides by K - 1
        return float(parts_count)
    return float((1.0 - sheave_factor**-parts_count) / (sheave_factor - 1.0))


def ideal_pull_n(load_n: float, parts_count: int) -> float:
    """Line pull of a tackle without friction.

    Equation: F = LR / N
    Units: LR load [N], N parts at the running block
    Range: LR >= 0, N >= 1
    Source: NAVEDTRA Builder ch. 4, read
    Raises: ValueError outside the range
    """
    if not 0.0 <= load_n < inf:
        raise refuse("load_n", load_n, "finite and not negative")
    if parts_count < 1:
        raise refuse("parts_count", parts_count, "1 or more")
    return load_n / parts_count
