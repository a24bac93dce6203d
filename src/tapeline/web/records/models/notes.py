"""What is written: notes with their amendments, reports, and minutes made up."""

from __future__ import annotations

from django.db import models

from tapeline.web.records.models.base import KEY_LENGTH, Keyed, Placed
from tapeline.web.records.models.history import Session
from tapeline.web.records.models.people import Child
from tapeline.web.records.models.places import Group


class SessionNote(Keyed):
    """The note of one child about one session; `signed_at` locks its sentences."""

    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="notes")
    child = models.ForeignKey(Child, on_delete=models.CASCADE, related_name="notes")
    sentences = models.JSONField(default=list)
    made_from = models.CharField(max_length=KEY_LENGTH, blank=True)
    signed_at = models.CharField(max_length=40, null=True, blank=True)
    signed_by = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.UniqueConstraint(
                fields=("session", "child"), name="one_note_per_session_and_child"
            ),
            models.CheckConstraint(
                condition=models.Q(signed_at=None) | ~models.Q(signed_by=""),
                name="signed_note_has_a_name",
            ),
        ]


class Amendment(Placed):
    """What was added to a signed note; rows are only ever added."""

    of = models.ForeignKey(SessionNote, on_delete=models.CASCADE, related_name="amendments")
    at = models.CharField(max_length=40)
    by = models.CharField(max_length=200)
    text = models.TextField()

    class Meta(Placed.Meta):
        pass


class KeptReport(Keyed):
    """A progress report of one child that was kept; `signed_at` locks its words."""

    child = models.ForeignKey(Child, on_delete=models.CASCADE, related_name="reports")
    first = models.DateField()
    last = models.DateField()
    parts = models.JSONField(default=list)
    made_from = models.CharField(max_length=KEY_LENGTH, blank=True)
    signed_at = models.CharField(max_length=40, null=True, blank=True)
    signed_by = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.CheckConstraint(
                condition=models.Q(first__lte=models.F("last")), name="report_begins_before_it_ends"
            ),
            models.CheckConstraint(
                condition=models.Q(signed_at=None) | ~models.Q(signed_by=""),
                name="signed_report_has_a_name",
            ),
        ]


class MadeUp(Keyed):
    """Minutes given to a child outside the group."""

    child = models.ForeignKey(Child, on_delete=models.CASCADE, related_name="made_up")
    group = models.ForeignKey(Group, on_delete=models.CASCADE, related_name="made_up")
    date = models.DateField()
    minutes = models.PositiveSmallIntegerField()
    place = models.CharField(max_length=20, default="room")
    note = models.TextField(blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.CheckConstraint(
                condition=models.Q(minutes__gte=1, minutes__lte=240), name="made_up_in_range"
            )
        ]
