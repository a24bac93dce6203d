"""The tables."""

from tapeline.web.records.models.history import (
    Blank,
    FamilyAnswer,
    OwnActivity,
    PromptList,
    Session,
    Trial,
)
from tapeline.web.records.models.people import (
    Child,
    ChildPrecaution,
    GoAhead,
    Goal,
    Home,
    Profile,
    SkillStart,
)
from tapeline.web.records.models.places import ClosedDay, Group, Membership, Room, Site, Term

__all__ = [
    "Blank",
    "Child",
    "ChildPrecaution",
    "ClosedDay",
    "FamilyAnswer",
    "GoAhead",
    "Goal",
    "Group",
    "Home",
    "Membership",
    "OwnActivity",
    "Profile",
    "PromptList",
    "Room",
    "Session",
    "Site",
    "SkillStart",
    "Term",
    "Trial",
]
