"""Addresses of the pages on which a session is written up: notes, minutes, summaries, cover."""

from __future__ import annotations

from django.urls import path

from tapeline.web.pages import cover, minutes, notes, progress, summary

ADDRESSES = [
    path("groups/<str:key>/minutes/", minutes.minutes, name="minutes"),
    path(
        "groups/<str:key>/minutes/<str:child>/", minutes.minutes_of_child, name="minutes_of_child"
    ),
    path("groups/<str:key>/<str:on>/cover.pdf", cover.session_cover, name="session_cover"),
    path("groups/<str:key>/<str:on>/notes/", notes.notes, name="notes"),
    path(
        "groups/<str:key>/<str:on>/notes/<str:child>/amend/",
        notes.note_amendment,
        name="note_amendment",
    ),
    path("children/<str:key>/progress/", progress.progress, name="progress"),
    path("children/<str:key>/progress/<str:report>/", progress.progress_kept, name="progress_kept"),
    path("children/<str:key>/progress.pdf", progress.progress_file, name="progress_file"),
    path("children/<str:key>/summary/", summary.summary, name="summary"),
    path("children/<str:key>/summary.pdf", summary.summary_file, name="summary_file"),
]
