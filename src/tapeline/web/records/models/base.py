"""What rows have in common: a text key for the outside, a place among their neighbours."""

from __future__ import annotations

from django.db import models

KEY_LENGTH = 80


class Keyed(models.Model):
    """A row known outside by `key`; its database number never leaves `web`."""

    key = models.CharField(max_length=KEY_LENGTH, unique=True)

    class Meta:
        abstract = True

    def __str__(self) -> str:
        return self.key


class Placed(models.Model):
    """A row whose order among its neighbours was given by her."""

    position = models.PositiveIntegerField(default=0)

    class Meta:
        abstract = True
        ordering = ("position", "pk")
