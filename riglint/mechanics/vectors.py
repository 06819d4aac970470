"""Vectors of three plain floats. Source: geometry; all lengths in metres, all forces in newtons."""

from __future__ import annotations

from math import atan2, cos, pi, sin, sqrt

Vec = tuple[float, float, float]

ZERO: Vec = (0.0, 0.0, 0.0)

ONE_WAY = 1e-9  # of unit vectors: nearer to each other than this they have one direction, and differ by rounding


def add(a: Vec, b: Vec) -> Vec:
    """A + b. Source: geometry."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def sub(a: Vec, b: Vec) -> Vec:
    """A - b. Source: geometry."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def scale(a: Vec, factor: float) -> Vec:
    """A * factor. Source: geometry."""
    return (a[0] * factor, a[1] * factor, a[2] * factor)


def along(a: Vec, b: Vec, factor: float) -> Vec:
    """A + b * factor. Source: geometry."""
    return (a[0] + b[0] * factor, a[1] + b[1] * factor, a[2] + b[2] * factor)


def dot(a: Vec, b: Vec) -> float:
    """A . b. Source: geometry."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def norm(a: Vec) -> float:
    """|a|. Source: geometry."""
    return sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2])


def distance(a: Vec, b: Vec) -> float:
    """|b - a|. Source: geometry."""
    x, y, z = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    return sqrt(x * x + y * y + z * z)


def unit(a: Vec) -> Vec:
    """A / |a|, or zero for a zero vector. Source: geometry."""
    size = norm(a)
    return (a[0] / size, a[1] / size, a[2] / size) if size > 0.0 else ZERO


def between_rad(a: Vec, b: Vec) -> float:
    """The angle between two unit vectors [rad]; none where they differ by rounding alone.

    Equation: 2 atan2(|a - b|, |a + b|). Range: unit vectors; 0 to pi. Source: W. Kahan, Miscalculating Area and
    Angles of a Needle-like Triangle (from memory): the inverse cosine keeps but half the digits of a small angle.
    """
    apart, together = distance(a, b), norm(add(a, b))
    if apart < ONE_WAY:
        return 0.0
    return 2.0 * atan2(apart, together) if together >= ONE_WAY else pi


def heading(bearing_rad: float, climb_rad: float = 0.0) -> Vec:
    """The unit vector of a bearing (from +x, counter-clockwise) and a climb over the level. Source: geometry."""
    level = cos(climb_rad)
    return (level * cos(bearing_rad), level * sin(bearing_rad), sin(climb_rad))
