"""Addresses of what is hers in the library; they come before those of single activities."""

from __future__ import annotations

from django.urls import path

from tapeline.web.pages import hers, own, own_versions, share

ADDRESSES = [
    path("library/hers/", own.hers, name="hers"),
    path("library/hers/new/", own.own_new, name="own_new"),
    path("library/drafts/<str:id>/", own.draft, name="draft"),
    path("library/drafts/<str:id>/delete/", own.draft_away, name="draft_delete"),
    path(
        "library/drafts/<str:id>/versions/<int:place>/",
        own_versions.draft_version,
        name="draft_version",
    ),
    path("library/things/new/", share.material_new, name="material_new"),
    path("library/things/<str:id>/", share.material, name="material"),
    path("library/share/", share.share, name="share"),
    path("library/share/now/", share.share_now, name="share_now"),
    path("library/share/activities.json", share.share_file, name="share_file"),
    path("library/left-out/", hers.left_out, name="left_out"),
    path("library/left-out/<str:key>/take-in/", hers.left_out_in_again, name="left_out_in_again"),
    path("library/<str:id>/leave-out/", hers.leave_out, name="leave_out"),
    path("library/<str:id>/mine/", hers.activity_change, name="activity_change"),
    path("library/<str:id>/mine/<str:tail>/", hers.version_change, name="version_change"),
    path("library/<str:id>/changes/", hers.changes, name="changes"),
    path("library/<str:id>/edit/", own.own_edit, name="own_edit"),
    path("library/<str:id>/delete/", own.own_away, name="own_away"),
    path("library/<str:id>/versions/new/", own_versions.own_version_new, name="own_version_new"),
    path("library/<str:id>/versions/<str:tail>/", own_versions.own_version, name="own_version"),
    path(
        "library/<str:id>/versions/<str:tail>/back/",
        own_versions.own_version_back,
        name="own_version_back",
    ),
    path(
        "library/<str:id>/versions/<str:tail>/delete/",
        own_versions.own_version_away,
        name="own_version_away",
    ),
]
