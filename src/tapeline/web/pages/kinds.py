"""How kinds of records, and what happens to them, are called on pages."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

KINDS = {
    "therapist": _("About you"),
    "homes": _("Homes"),
    "children": _("Children"),
    "sites": _("Sites"),
    "groups": _("Groups"),
    "sessions": _("Sessions"),
    "trials": _("Tries"),
    "family_answers": _("Families' answers"),
    "late_or_early": _("Late or left early"),
    "stops": _("Something happened"),
    "sheets": _("Sheets taken in"),
    "timings": _("Timings of yours"),
    "notes": _("Notes"),
    "reports": _("Reports"),
    "made_up": _("Minutes made up"),
    "blanks": _("Blanks"),
    "prompt_lists": _("Levels of help"),
    "own_activities": _("Activities of your own"),
    "own_versions": _("Versions of your own"),
    "own_materials": _("Things of your own"),
    "own_changes": _("Lines you changed"),
    "own_drafts": _("Drafts"),
    "left_out": _("What is left out"),
    "kept_texts": _("Texts of held sessions"),
}
VERDICT_NAMES = {
    "new": _("New"),
    "changed": _("Changed"),
    "unchanged": _("Unchanged"),
    "inactive": _("Becomes inactive"),
    "refused": _("Refused"),
}
