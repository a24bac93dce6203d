"""The therapist, homes, children with their starts, goals, precautions and go-aheads."""

from __future__ import annotations

from django.db import models

from tapeline.web.records.models.base import KEY_LENGTH, Keyed, Placed


class Profile(models.Model):
    """Who she is and how paper is printed; one row in each caseload."""

    only_one = models.BooleanField(default=True, unique=True)
    name = models.CharField(max_length=200, blank=True)
    credential = models.CharField(max_length=200, blank=True)
    ring = models.TextField(blank=True)
    emergency_number = models.CharField(max_length=80, blank=True)
    plan_kept = models.TextField(blank=True)
    wording = models.JSONField(default=list)
    first_aid_read_by = models.CharField(max_length=200, blank=True)
    first_aid_read_on = models.DateField(null=True, blank=True)
    paper = models.CharField(max_length=10, default="a4")
    spelling = models.CharField(max_length=10, default="us")
    lengths = models.CharField(max_length=10, default="cm")
    invented = models.BooleanField(default=False)

    class Meta:
        constraints = [
            models.CheckConstraint(condition=models.Q(only_one=True), name="profile_only_one")
        ]


class Home(Keyed):
    """Where a child plays at home, with what, and with whom."""

    name = models.CharField(max_length=200, blank=True)
    space = models.CharField(max_length=20, default="room")
    length_cm = models.PositiveIntegerField(null=True, blank=True)
    width_cm = models.PositiveIntegerField(null=True, blank=True)
    things = models.JSONField(default=list)
    helper = models.CharField(max_length=200, blank=True)
    hands = models.PositiveSmallIntegerField(default=2)
    language = models.CharField(max_length=10, default="en")
    loudest = models.CharField(max_length=20, default="usual")
    also_there = models.JSONField(default=list)
    crawling_baby = models.BooleanField(default=False)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.CheckConstraint(condition=models.Q(hands__lte=2), name="home_hands_0_to_2")
        ]


class Child(Keyed):
    """A child as far as planning needs."""

    name = models.CharField(max_length=200)
    born = models.CharField(max_length=7)
    mark = models.CharField(max_length=40, blank=True)
    home = models.ForeignKey(
        Home, null=True, blank=True, on_delete=models.PROTECT, related_name="children"
    )
    gets_about = models.CharField(max_length=20, default="on_foot")
    height_cm = models.PositiveIntegerField(null=True, blank=True)
    jump_cm = models.PositiveIntegerField(null=True, blank=True)
    hop_cm = models.PositiveIntegerField(null=True, blank=True)
    stride_cm = models.PositiveIntegerField(null=True, blank=True)
    device_width_cm = models.PositiveIntegerField(null=True, blank=True)
    turning_cm = models.PositiveIntegerField(null=True, blank=True)
    note = models.TextField(blank=True)
    active = models.BooleanField(default=True)
    band = models.JSONField(null=True, blank=True)
    ill = models.JSONField(default=list)
    loss_answers = models.JSONField(default=list)

    class Meta:
        ordering = ("pk",)
        constraints = [
            models.CheckConstraint(condition=~models.Q(name=""), name="child_has_a_name"),
            models.CheckConstraint(condition=~models.Q(born=""), name="child_has_a_birth_month"),
        ]


class SkillStart(Placed):
    """The step of a skill a child starts on."""

    child = models.ForeignKey(Child, on_delete=models.CASCADE, related_name="skill_starts")
    skill = models.CharField(max_length=KEY_LENGTH)
    step = models.CharField(max_length=KEY_LENGTH)

    class Meta(Placed.Meta):
        constraints = [
            models.UniqueConstraint(fields=("child", "skill"), name="one_start_per_skill")
        ]


class Goal(Placed):
    """A goal of one child: k of n tries at a step, in m sessions running."""

    child = models.ForeignKey(Child, on_delete=models.CASCADE, related_name="goals")
    key = models.CharField(max_length=KEY_LENGTH)
    name = models.CharField(max_length=200)
    skill = models.CharField(max_length=KEY_LENGTH)
    step = models.CharField(max_length=KEY_LENGTH)
    k = models.PositiveIntegerField()
    n = models.PositiveIntegerField()
    m = models.PositiveIntegerField(default=1)
    help_at_most = models.CharField(max_length=KEY_LENGTH, default="alone")
    condition = models.TextField(blank=True)
    behaviour = models.TextField(blank=True)
    date = models.DateField(null=True, blank=True)
    baseline = models.JSONField(null=True, blank=True)
    weight = models.PositiveSmallIntegerField(default=1)

    class Meta(Placed.Meta):
        constraints = [
            models.UniqueConstraint(fields=("child", "key"), name="goal_key_once_per_child"),
            models.UniqueConstraint(fields=("child", "name"), name="goal_name_once_per_child"),
            models.CheckConstraint(
                condition=models.Q(k__gte=1, n__gte=models.F("k"), m__gte=1),
                name="goal_counts_make_sense",
            ),
            models.CheckConstraint(
                condition=models.Q(weight__gte=1, weight__lte=3), name="goal_weight_1_to_3"
            ),
        ]


class ChildPrecaution(Placed):
    """A precaution of one child."""

    child = models.ForeignKey(Child, on_delete=models.CASCADE, related_name="precautions")
    kind = models.CharField(max_length=KEY_LENGTH)
    since = models.DateField(null=True, blank=True)
    note = models.TextField(blank=True)


class GoAhead(Placed):
    """A written go-ahead for one precaution."""

    precaution = models.ForeignKey(
        ChildPrecaution, on_delete=models.CASCADE, related_name="go_aheads"
    )
    written_by = models.CharField(max_length=200)
    date = models.DateField()
    allows = models.JSONField(default=list)
    ends = models.DateField(null=True, blank=True)
    note = models.TextField(blank=True)

    class Meta(Placed.Meta):
        constraints = [
            models.CheckConstraint(
                condition=models.Q(ends=None) | models.Q(ends__gte=models.F("date")),
                name="go_ahead_ends_after_it_begins",
            )
        ]
