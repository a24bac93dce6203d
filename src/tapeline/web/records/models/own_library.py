"""What she made of the library: rows in the shape of the caseload file, and what is left out."""

from __future__ import annotations

from django.db import models

from tapeline.web.records.models.base import KEY_LENGTH, Keyed, Placed
from tapeline.web.records.models.people import Child, Home

LONG_KEY = 250


class OwnPiece(Placed):
    """An activity, version, material, change or draft of hers, or a kept text, as in the file."""

    kind = models.CharField(max_length=20)
    key = models.CharField(max_length=LONG_KEY)
    body = models.JSONField()

    class Meta(Placed.Meta):
        constraints = [
            models.UniqueConstraint(fields=("kind", "key"), name="one_own_piece_of_a_key")
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.key}"


class LeftOut(Keyed):
    """An activity that is not planned: for a child, for a home, or for good (neither)."""

    activity = models.CharField(max_length=KEY_LENGTH)
    child = models.ForeignKey(
        Child, null=True, blank=True, on_delete=models.CASCADE, related_name="left_out"
    )
    home = models.ForeignKey(
        Home, null=True, blank=True, on_delete=models.CASCADE, related_name="left_out"
    )
    since = models.DateField()
    reason = models.TextField(blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.CheckConstraint(
                condition=models.Q(child__isnull=True) | models.Q(home__isnull=True),
                name="left_out_for_a_child_or_a_home",
            )
        ]
