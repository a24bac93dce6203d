"""The tables."""

from tapeline.web.records.models.history import (
    Blank,
    FamilyAnswer,
    LateOrEarly,
    Press,
    PromptList,
    Session,
    Sheet,
    Stop,
    Timing,
    Trial,
)
from tapeline.web.records.models.notes import Amendment, KeptReport, MadeUp, SessionNote
from tapeline.web.records.models.own_library import LeftOut, OwnPiece
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
from tapeline.web.records.models.planning import Asked, Printed

__all__ = [
    "Amendment",
    "Asked",
    "Blank",
    "Child",
    "ChildPrecaution",
    "ClosedDay",
    "FamilyAnswer",
    "GoAhead",
    "Goal",
    "Group",
    "Home",
    "KeptReport",
    "LateOrEarly",
    "LeftOut",
    "MadeUp",
    "Membership",
    "OwnPiece",
    "Press",
    "Printed",
    "Profile",
    "PromptList",
    "Room",
    "Session",
    "SessionNote",
    "Sheet",
    "Site",
    "SkillStart",
    "Stop",
    "Term",
    "Timing",
    "Trial",
]
