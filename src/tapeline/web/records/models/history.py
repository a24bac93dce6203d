"""What has happened: sessions, trials, blanks, families' answers; and prompt levels."""

from __future__ import annotations

from django.db import models

from tapeline.web.records.models.base import KEY_LENGTH, Keyed, Placed
from tapeline.web.records.models.people import Child
from tapeline.web.records.models.places import Group


class Session(Keyed):
    """One meeting of a group; `plan` is its plan.json."""

    group = models.ForeignKey(Group, on_delete=models.CASCADE, related_name="sessions")
    date = models.DateField(db_index=True)
    status = models.CharField(max_length=20, default="planned")
    side = models.CharField(max_length=30, blank=True)
    reason = models.TextField(blank=True)
    moved_to = models.DateField(null=True, blank=True)
    began = models.CharField(max_length=40, null=True, blank=True)
    ended = models.CharField(max_length=40, null=True, blank=True)
    activities = models.JSONField(default=list)
    plan = models.JSONField(null=True, blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.CheckConstraint(
                condition=~models.Q(status__in=("cancelled", "moved")) | ~models.Q(reason=""),
                name="session_miss_has_a_reason",
            )
        ]


class Trial(Keyed):
    """Goes at one step; rows are only ever added."""

    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="trials")
    child = models.ForeignKey(Child, on_delete=models.CASCADE, related_name="trials")
    version = models.CharField(max_length=KEY_LENGTH)
    step = models.CharField(max_length=KEY_LENGTH)
    outcome = models.CharField(max_length=20)
    help = models.CharField(max_length=KEY_LENGTH, default="alone")
    procedure = models.CharField(max_length=20, default="least_help")
    count = models.PositiveIntegerField(default=1)
    source = models.CharField(max_length=20, default="tally")
    at = models.CharField(max_length=40, null=True, blank=True)
    measured = models.FloatField(null=True, blank=True)
    corrects = models.CharField(max_length=KEY_LENGTH, null=True, blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.CheckConstraint(
                condition=models.Q(count__gte=1) | models.Q(corrects__isnull=False),
                name="trial_counts_1_or_more_unless_it_corrects",
            )
        ]


class Blank(models.Model):
    """Why nothing was counted for a child at an activity ("" = the whole session)."""

    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="blanks")
    child = models.ForeignKey(Child, on_delete=models.CASCADE, related_name="blanks")
    kind = models.CharField(max_length=20)
    activity = models.CharField(max_length=KEY_LENGTH, blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.UniqueConstraint(
                fields=("session", "child", "activity"), name="one_blank_per_child_and_activity"
            )
        ]


class FamilyAnswer(Keyed):
    """A family's answer to at most three questions."""

    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="family_answers")
    child = models.ForeignKey(Child, on_delete=models.CASCADE, related_name="family_answers")
    days_done = models.PositiveIntegerField(null=True, blank=True)
    went = models.CharField(max_length=20, null=True, blank=True)
    hurt_or_scary = models.TextField(blank=True)

    class Meta:
        ordering = ("pk",)


class LateOrEarly(Keyed):
    """A child who came late or left early; a later row for the same child holds."""

    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="late_or_early")
    child = models.ForeignKey(Child, on_delete=models.CASCADE, related_name="late_or_early")
    kind = models.CharField(max_length=20)
    at = models.CharField(max_length=5)

    class Meta:
        ordering = ("pk",)


class Stop(Keyed):
    """Something happened and a game was stopped; deleting the child deletes it too."""

    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="stops")
    child = models.ForeignKey(
        Child, null=True, blank=True, on_delete=models.CASCADE, related_name="stops"
    )
    happened = models.TextField()
    done = models.TextField(blank=True)
    activity = models.CharField(max_length=KEY_LENGTH, null=True, blank=True)
    at = models.CharField(max_length=5, null=True, blank=True)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.CheckConstraint(condition=~models.Q(happened=""), name="stop_says_what_happened")
        ]


class Sheet(Keyed):
    """A sheet of results that was taken in."""

    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="sheets")
    by = models.CharField(max_length=200, blank=True)
    source = models.CharField(max_length=20, default="tally")
    at = models.CharField(max_length=40, null=True, blank=True)

    class Meta:
        ordering = ("pk",)


class Timing(Keyed):
    """Her own seconds for a version."""

    version = models.CharField(max_length=KEY_LENGTH)
    seconds = models.FloatField()
    units = models.PositiveIntegerField()
    date = models.DateField()
    child = models.ForeignKey(
        Child, null=True, blank=True, on_delete=models.CASCADE, related_name="timings"
    )

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.CheckConstraint(
                condition=models.Q(seconds__gt=0, units__gte=1), name="timing_above_0"
            )
        ]


class Press(Keyed):
    """A press of the run page that was taken in: the same id twice counts once."""

    session = models.ForeignKey(Session, on_delete=models.CASCADE, related_name="presses")

    class Meta:
        ordering = ("pk",)


class PromptList(Keyed, Placed):
    """Prompt levels from most help to none; levels are hidden, never deleted."""

    levels = models.JSONField(default=list)

    class Meta(Placed.Meta):
        pass
