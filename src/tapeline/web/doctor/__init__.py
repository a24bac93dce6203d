"""A check-up of the records and of the program; it looks, and changes nothing.

Boundary: reads through selectors and file checks; no service but those that only read.
"""

from __future__ import annotations

from tapeline.web.doctor.finding import Finding


def check_up() -> tuple[Finding, ...]:
    """Everything that is amiss: records first, then the program, the disk, the backups."""
    from tapeline.web.doctor.keeping import backup_findings, disk_findings
    from tapeline.web.doctor.program import font_findings, library_findings, template_findings
    from tapeline.web.doctor.records import record_findings
    from tapeline.web.doctor.references import reference_findings

    found = list(record_findings())
    if not found:
        found += [*reference_findings(), *template_findings()]
    return (*found, *library_findings(), *font_findings(), *disk_findings(), *backup_findings())


__all__ = ["Finding", "check_up"]
