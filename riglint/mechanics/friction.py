"""Friction of rope on what turns it: sliding seats, turning sheaves, drums and grooves.

`loss` is always 1 - T_out / T_in for a half turn with the rope slipping or the sheave turning.
"""

from math import exp, inf, log1p, pi, sin

from riglint.mechanics._refuse import refuse


def mu_from_half_turn_loss(half_turn_loss_fraction: float) -> float:
    """Coefficient of friction that gives this loss over a half turn.

    Equation: mu = -ln(1 - loss) / pi
    Units: loss fraction of the incoming tension; mu dimensionless
    Range: 0 <= loss < 1
    Source: derivation (capstan law at theta = pi)
    Raises: ValueError outside the range
    """
    if not 0.0 <= half_turn_loss_fraction < 1.0:
        raise refuse("half_turn_loss_fraction", half_turn_loss_fraction, "at least 0 and below 1")
    return -log1p(-half_turn_loss_fraction) / pi


def half_turn_loss_fraction(mu: float) -> float:
    """Loss over a half turn for a coefficient of friction; the inverse of `mu_from_half_turn_loss`.

    Equation: loss = 1 - exp(-pi mu)
    Units: mu dimensionless
    Range: mu >= 0
    Source: derivation (capstan law at theta = pi)
    Raises: ValueError outside the range
    """
    if not 0.0 <= mu < inf:
        raise refuse("mu", mu, "finite and not negative")
    return 1.0 - exp(-pi * mu)


def sliding_ratio(mu: float, wrap_rad: float) -> float:
    """Outgoing over incoming tension where rope slides over a seat.

    Equation: T_out / T_in = exp(-mu theta)
    Units: mu dimensionless, theta wrap angle [rad]
    Range: mu >= 0, theta >= 0
    Source: capstan law, textbooks of mechanics, read
    Raises: ValueError outside the range
    """
    if not 0.0 <= mu < inf:
        raise refuse("mu", mu, "finite and not negative")
    if not 0.0 <= wrap_rad < inf:
        raise refuse("wrap_rad", wrap_rad, "finite and not negative")
    return exp(-mu * wrap_rad)


def turning_ratio(half_turn_loss_fraction: float, wrap_rad: float) -> float:
    """Outgoing over incoming tension at a sheave that turns: its bearing loses with the resultant.

    Equation: T_out / T_in = 1 - loss sin(theta / 2)
    Units: loss at a half turn, theta wrap angle [rad]
    Range: 0 <= loss < 1, 0 <= theta <= 2 pi. Past a half turn the loss is held at its half-turn value:
        the resultant falls there, but the rope's own bending does not
    Source: derivation (bearing friction on the resultant 2 T sin(theta / 2)); loss by the maker or by rule
    Raises: ValueError outside the range
    """
    if not 0.0 <= half_turn_loss_fraction < 1.0:
        raise refuse("half_turn_loss_fraction", half_turn_loss_fraction, "at least 0 and below 1")
    if not 0.0 <= wrap_rad <= 2.0 * pi:
        raise refuse("wrap_rad", wrap_rad, "0 to 2 pi")
    return 1.0 - half_turn_loss_fraction * sin(min(wrap_rad, pi) / 2.0)


def capstan_hold_n(load_n: float, mu: float, wrap_rad: float) -> float:
    """Least force that holds a load through rope wrapped round something that stands still.

    Equation: F = L exp(-mu theta)
    Units: L load [N], mu dimensionless, theta wrap angle [rad]
    Range: L >= 0, mu >= 0, theta >= 0
    Source: capstan law, textbooks of mechanics, read
    Raises: ValueError outside the range
    """
    if not 0.0 <= load_n < inf:
        raise refuse("load_n", load_n, "finite and not negative")
    return load_n * sliding_ratio(mu, wrap_rad)


def fastening_tension_n(tension_n: float, mu: float, wraps_count: float) -> float:
    """Tension that the wraps left on the drum pass on to the rope's fastening.

    Equation: T_f = T exp(-2 pi mu n)
    Units: T tension of the leaving rope [N], mu rope on drum, n wraps left
    Range: T >= 0, mu >= 0, n >= 0. Take the LOW end of mu: friction is what helps here
    Source: capstan law, textbooks of mechanics, read; as applied to a drum a derivation
    Raises: ValueError outside the range
    """
    if not 0.0 <= tension_n < inf:
        raise refuse("tension_n", tension_n, "finite and not negative")
    if not 0.0 <= wraps_count < inf:
        raise refuse("wraps_count", wraps_count, "finite and not negative")
    return tension_n * sliding_ratio(mu, 2.0 * pi * wraps_count)


def v_groove_mu(mu: float, half_angle_rad: float) -> float:
    """Coefficient of friction that a V groove acts with.

    Equation: mu' = mu / sin(beta)
    Units: mu dimensionless, beta half the angle of the V [rad]
    Range: mu >= 0, 0 < beta <= pi/2
    Source: textbooks of mechanics, read
    Raises: ValueError outside the range
    """
    if not 0.0 <= mu < inf:
        raise refuse("mu", mu, "finite and not negative")
    if not 0.0 < half_angle_rad <= pi / 2:
        raise refuse("half_angle_rad", half_angle_rad, "above 0 and at most pi/2")
    return mu / sin(half_angle_rad)
