"""Design factors as their sources have them: breaking strength over load."""

import pytest

from riglint.rulebook.design_factors import DESIGN_FACTORS

FACTORS = {limit.name: limit for limit in DESIGN_FACTORS}


@pytest.mark.parametrize(
    ("gear", "factor", "source", "trust"),
    [
        ("wire_rope", 3, "wyoming-osha-ch-5", "read"),  # ch. 5 s. 5-2(c): nominal strength over static load, winching
        ("shackle", 5, "asme-b30-26", "read second hand"),  # B30.26-2010 26-1.2: up to 150 t, lifting
        ("chain", 4, "en-818-4", "from memory"),
        ("sling", 7, "en-1492", "from memory"),  # the safer: DOE-STD-1090 has 5 for web, read
        ("strap", 5, "doe-std-1090", "read"),  # 11.3.5, synthetic web, lifting
        ("wire_sling", 5, "doe-std-1090", "read"),  # 11.3.1.3, as 29 CFR 1915.112(b)
        ("soft_gear", 5, "cordage-institute", "read second hand"),  # CI 1401-06 s. 4: 5 to 12, the low end
        ("block", 5, "lr-lifting-appliances", "read"),  # ch. 8 s. 3.1.2: on the resultant
    ],
)
def test_factor(gear: str, factor: float, source: str, trust: str) -> None:
    limit = FACTORS[gear]
    assert limit.value == factor
    assert (limit.basis.source, limit.basis.trust) == (source, trust)


@pytest.mark.parametrize("gear", ["fitting", "bridle", "ring"])
def test_what_no_source_names_is_marked_as_practice(gear: str) -> None:
    assert FACTORS[gear].basis.kind == "common practice"
    assert FACTORS[gear].value >= 5  # as shackles, web slings and blocks
