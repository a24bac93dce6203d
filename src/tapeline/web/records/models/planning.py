"""What stands beside a session's plan: what she asked of it last, and what was printed of it.

Neither is part of a caseload file: taken to another computer, a session has its plan alone.
"""

from __future__ import annotations

from django.db import models

from tapeline.web.records.models.base import KEY_LENGTH, Keyed
from tapeline.web.records.models.history import Session
from tapeline.web.records.models.places import Group


class Asked(Keyed):
    """What she asked of a session last and the plan it had before; open while it is looked for.

    A new question has a new key, so that a search for the one before stores nothing any more.
    """

    group = models.ForeignKey(Group, on_delete=models.CASCADE, related_name="asked")
    date = models.DateField()
    wishes = models.JSONField(null=True, blank=True)
    adults = models.PositiveSmallIntegerField(null=True, blank=True)
    before = models.JSONField(null=True, blank=True)
    is_open = models.BooleanField(default=True)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.UniqueConstraint(fields=("group", "date"), name="one_question_per_session")
        ]


class Printed(models.Model):
    """The packet of a session as it was printed last: the fingerprint of its plan, and when."""

    session = models.OneToOneField(Session, on_delete=models.CASCADE, related_name="printed")
    plan = models.CharField(max_length=KEY_LENGTH)
    on = models.DateField()

    class Meta:
        ordering = ("pk",)

    def __str__(self) -> str:
        return self.plan
