"""How the grip of a vehicle is shown to be reckoned."""

from riglint.outcome import Formula, Step
from riglint.solve.ground import VehicleHolding

_GRIP = Formula(
    "holds", "max(0, mu * max(0, weight * cos(slope) - uplift) - weight * sin(slope)) + tied",
    (("mu", "1"), ("weight", "N"), ("slope", "rad"), ("uplift", "N"), ("tied", "N")), "N",
)  # fmt: skip
_PRESSED = Formula(
    "pressed", "max(0, weight * sqrt(cos(slope) * cos(slope) - sin(side) * sin(side)) - uplift)",
    (("weight", "N"), ("slope", "rad"), ("side", "rad"), ("uplift", "N")), "N",
)  # fmt: skip
_LEFT = Formula(
    "holds", "max(0, sqrt(max(0, mu * mu * pressed * pressed - weight * weight * sin(side) * sin(side))) - weight * "
    "sin(slope)) + tied",
    (("mu", "1"), ("pressed", "N"), ("weight", "N"), ("side", "rad"), ("slope", "rad"), ("tied", "N")), "N",
)  # fmt: skip


def grip_working(held: VehicleHolding) -> tuple[Step, ...]:
    """In two steps where the ground falls across the pull as well."""
    _, holds_n, mu, weight_n, slope, uplift_n, tied_n, side = held
    if not side:
        return (_GRIP.step(holds_n, mu, weight_n, slope, uplift_n, tied_n),)
    pressed_n = held.pressed_n
    pressed = _PRESSED.step(pressed_n, weight_n, slope, side, uplift_n)
    return pressed, _LEFT.step(holds_n, mu, pressed_n, weight_n, side, slope, tied_n)
