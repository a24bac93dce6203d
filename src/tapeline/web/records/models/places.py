"""Sites with terms, closed days and rooms; groups with their members."""

from __future__ import annotations

from django.db import models

from tapeline.caseload.places import LONGEST_MINUTES, SMALLEST_ROOM_CM
from tapeline.web.records.models.base import KEY_LENGTH, Keyed, Placed
from tapeline.web.records.models.people import Child


class Site(Keyed):
    """A school, clinic or hall."""

    name = models.CharField(max_length=200)
    recording_counts = models.CharField(max_length=20, default="not_said")
    makes_up = models.JSONField(null=True, blank=True)

    class Meta:
        ordering = ("pk",)


class Term(Placed):
    """A stretch of weeks in which groups meet."""

    site = models.ForeignKey(Site, on_delete=models.CASCADE, related_name="terms")
    name = models.CharField(max_length=200)
    starts = models.DateField()
    ends = models.DateField()

    class Meta(Placed.Meta):
        constraints = [
            models.CheckConstraint(
                condition=models.Q(ends__gte=models.F("starts")), name="term_ends_after_it_starts"
            )
        ]


class ClosedDay(Placed):
    """A day on which the site is closed."""

    site = models.ForeignKey(Site, on_delete=models.CASCADE, related_name="closed_days")
    date = models.DateField()
    reason = models.CharField(max_length=200)


class Room(Placed):
    """A floor with the things in it and its drawing; its key is unique within the site."""

    site = models.ForeignKey(Site, on_delete=models.CASCADE, related_name="rooms")
    key = models.CharField(max_length=KEY_LENGTH)
    name = models.CharField(max_length=200)
    length_cm = models.PositiveIntegerField()
    width_cm = models.PositiveIntegerField()
    things = models.JSONField(default=list)
    corners = models.JSONField(default=list)
    doors = models.JSONField(default=list)
    furniture = models.JSONField(default=list)
    pillars = models.JSONField(default=list)
    no_go = models.JSONField(default=list)
    adults = models.JSONField(default=list)

    class Meta(Placed.Meta):
        constraints = [
            models.UniqueConstraint(fields=("site", "key"), name="room_key_once_per_site"),
            models.CheckConstraint(
                condition=models.Q(length_cm__gte=SMALLEST_ROOM_CM, width_cm__gte=SMALLEST_ROOM_CM),
                name="room_at_least_1_m",
            ),
        ]


class Group(Keyed):
    """A weekly group."""

    name = models.CharField(max_length=200)
    weekday = models.CharField(max_length=10)
    start = models.CharField(max_length=5)
    minutes = models.PositiveSmallIntegerField()
    site = models.ForeignKey(
        Site, null=True, blank=True, on_delete=models.PROTECT, related_name="groups"
    )
    room = models.ForeignKey(
        Room, null=True, blank=True, on_delete=models.PROTECT, related_name="groups"
    )
    adults = models.PositiveSmallIntegerField(default=2)
    floor_of_trials = models.PositiveIntegerField(null=True, blank=True)
    children = models.ManyToManyField(Child, through="Membership", related_name="groups")

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.CheckConstraint(
                condition=models.Q(minutes__gte=1, minutes__lte=LONGEST_MINUTES),
                name="group_minutes_in_range",
            ),
            models.CheckConstraint(
                condition=models.Q(room=None) | models.Q(site__isnull=False),
                name="group_room_needs_its_site",
            ),
        ]


class Membership(Placed):
    """A child in a group, from when to when, and where the child takes part."""

    group = models.ForeignKey(Group, on_delete=models.CASCADE, related_name="memberships")
    child = models.ForeignKey(Child, on_delete=models.CASCADE, related_name="memberships")
    place = models.CharField(max_length=20, default="room")
    starts = models.DateField(null=True, blank=True)
    ends = models.DateField(null=True, blank=True)
