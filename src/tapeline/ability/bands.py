"""The success band of one child: hers where she set one, else the usual one.

No study with children with motor difficulties has fixed these numbers; below 4 in 10 counts as
too hard whatever the band is.
"""

from __future__ import annotations

from tapeline.ability.settings import Band, usual_band
from tapeline.caseload.people import Child

HUNDRED = 100


def band_of(child: Child) -> Band:
    """The chance of success to practise at for this child."""
    usual = usual_band()
    if child.band is None:
        return usual
    return Band(
        low=child.band.low / HUNDRED,
        centre=child.band.best / HUNDRED,
        high=child.band.high / HUNDRED,
        too_hard_below=usual.too_hard_below,
    )
