"""Fixed numbers: standard gravity and the exact factors that turn the sources' own units into SI."""

from typing import Final

STANDARD_GRAVITY: Final = 9.80665  # m/s2, exact by definition (ISO 80000-3)

KG_PER_LB: Final = 0.45359237  # exact
M_PER_INCH: Final = 0.0254  # exact
M_PER_FOOT: Final = 0.3048  # exact

N_PER_KGF: Final = STANDARD_GRAVITY
N_PER_LBF: Final = KG_PER_LB * STANDARD_GRAVITY
N_PER_SHORT_TON: Final = 2000.0 * N_PER_LBF  # the ton of 2,000 lb of the rules of thumb
N_PER_TONNE: Final = 1000.0 * STANDARD_GRAVITY
PA_PER_PSF: Final = N_PER_LBF / M_PER_FOOT**2  # pound-force per square foot

KELVIN_AT_0_C: Final = 273.15
