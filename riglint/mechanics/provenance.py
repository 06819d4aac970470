"""A figure never travels without where it is from and how far it can be trusted.

The keys name sources; their titles and editions are kept with the rulebook, so that an edition
changes in one place.
"""

from typing import Final, Literal, NamedTuple

Trust = Literal[
    "read",  # the number was seen in the named source
    "read second hand",  # seen in a reprint or a report of the named source
    "from memory",  # not re-read; well known, but say so beside the value
    "from memory, low confidence",  # may only make a verdict worse, never let it pass
    "derivation",  # follows from the mechanics stated in the function
    "common practice",  # no published source found
]

DERIVATION: Final = "derivation"
COMMON_PRACTICE: Final = "common-practice"

FM_9_43_2: Final = "fm-9-43-2"
FM_4_30_31: Final = "fm-4-30-31"
FM_20_22: Final = "fm-20-22"
FM_5_125: Final = "fm-5-125"
FM_5_434: Final = "fm-5-434"
LESSON_63H34F01: Final = "lesson-63h34f01"
TB_9_2350_292_10: Final = "tb-9-2350-292-10"
TB_43_0142: Final = "tb-43-0142"
TB_55_1900_232_10: Final = "tb-55-1900-232-10"
TM_9_2320_279_10: Final = "tm-9-2320-279-10-2"
TM_5_5420_278_10: Final = "tm-5-5420-278-10"
TM_5_3810_305_10: Final = "tm-5-3810-305-10"
NAVEDTRA_14026: Final = "navedtra-14026"
NAVEDTRA_14081: Final = "navedtra-14081"
NAVEDTRA_14251: Final = "navedtra-14251"
NAVEDTRA_BUILDER: Final = "navedtra-builder"
NAVEDTRA_EQUIPMENT: Final = "navedtra-equipment-operator"
WIRE_ROPE_MANUAL: Final = "wire-rope-users-manual"
WIRE_ROPE_SLING_MANUAL: Final = "wire-rope-sling-users-manual"
RIGGERS_HANDBOOK: Final = "riggers-handbook"
CIVIL_FORMULAS: Final = "civil-engineering-formulas"
EARTHMOVING_TEXT: Final = "construction-methods-text"
WINCH_WIRE_HANDBOOK: Final = "winch-and-wire-handbook"
SAE_J706: Final = "sae-j706"
ASME_B30_26: Final = "asme-b30-26"
WAC_296_155: Final = "wac-296-155-33905"
OSHA_1918_II: Final = "29-cfr-1918-app-ii"
OSHA_GUIDANCE: Final = "osha-sling-guidance"
LR_LIFTING_CODE: Final = "lr-lifting-appliances"
ILO_DOCK_WORK: Final = "ilo-dock-work"
DOE_1090: Final = "doe-std-1090"
UFGS_14636N: Final = "ufgs-14636n"
CORDAGE_INSTITUTE: Final = "cordage-institute"
AU_DISASTER_RESCUE: Final = "au-disaster-rescue"
AU_TREE_RESCUE: Final = "au-tree-rescue"
EN_12385_4: Final = "en-12385-4"
WIRE_STRENGTH_TABLE: Final = "wire-strength-table"
SAFETY_ALERT_SA015: Final = "mooring-safety-alert-sa015"
FM_21_305: Final = "fm-21-305"
FOREST_TEXT: Final = "forest-engineering-text"


class Figure(NamedTuple):
    """One number with its source."""

    value: float
    source: str
    locator: str
    trust: Trust


class Band(NamedTuple):
    """A number of which only the two ends are known, with its source."""

    low: float
    high: float
    source: str
    locator: str
    trust: Trust
