"""The one Django application of tapeline."""

from __future__ import annotations

from django.apps import AppConfig


class RecordsConfig(AppConfig):
    """Everything a therapist keeps; the label stands in migrations and table names."""

    name = "tapeline.web.records"
    label = "records"
    default_auto_field = "django.db.models.BigAutoField"
