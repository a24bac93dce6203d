"""Addresses of the pages on which she says what she knows."""

from __future__ import annotations

from django.urls import path

from tapeline.web.pages import (
    child_ability,
    child_parts,
    child_precautions,
    children,
    groups,
    homes,
    library,
    room_addresses,
    sites,
    therapist,
)

ADDRESSES = [
    path("children/", children.children, name="children"),
    path("children/new/", children.child_new, name="child_new"),
    path("children/paste/", children.child_paste, name="child_paste"),
    path("children/<str:key>/", children.child, name="child"),
    path("children/<str:key>/about/", children.child_about, name="child_about"),
    path("children/<str:key>/delete/", children.child_away, name="child_delete"),
    path("children/<str:key>/home/", child_parts.child_home, name="child_home"),
    path("children/<str:key>/join/", child_parts.child_join, name="child_join"),
    path("children/<str:key>/skills/", child_parts.child_skills, name="child_skills"),
    path("children/<str:key>/band/", child_ability.child_band, name="child_band"),
    path("children/<str:key>/ill/", child_ability.child_ill, name="child_ill"),
    path("children/<str:key>/seen-less/<str:skill>/", child_ability.child_loss, name="child_loss"),
    path("children/<str:key>/goals/new/", child_parts.goal_new, name="goal_new"),
    path("children/<str:key>/goals/<str:goal_id>/", child_parts.goal, name="goal"),
    path(
        "children/<str:key>/precautions/",
        child_precautions.child_precautions,
        name="child_precautions",
    ),
    path(
        "children/<str:key>/precautions/<int:place>/",
        child_precautions.precaution,
        name="precaution",
    ),
    path(
        "children/<str:key>/precautions/<int:place>/go-aheads/new/",
        child_precautions.go_ahead_new,
        name="go_ahead_new",
    ),
    path(
        "children/<str:key>/precautions/<int:place>/go-aheads/<int:at>/",
        child_precautions.go_ahead,
        name="go_ahead",
    ),
    path("homes/", homes.homes, name="homes"),
    path("homes/new/", homes.home_new, name="home_new"),
    path("homes/<str:key>/", homes.home, name="home"),
    path("homes/<str:key>/things/", homes.home_things, name="home_things"),
    path("homes/<str:key>/delete/", homes.home_away, name="home_delete"),
    path("groups/", groups.groups, name="groups"),
    path("groups/new/", groups.group_new, name="group_new"),
    path("groups/<str:key>/", groups.group, name="group"),
    path("groups/<str:key>/delete/", groups.group_away, name="group_delete"),
    path("sites/", sites.sites, name="sites"),
    path("sites/new/", sites.site_new, name="site_new"),
    path("sites/<str:key>/", sites.site, name="site"),
    path("sites/<str:key>/rooms/new/", sites.room_new, name="room_new"),
    path("sites/<str:key>/rooms/<str:room_key>/", sites.room, name="room"),
    *room_addresses.ADDRESSES,
    path("sites/<str:key>/delete/", sites.site_away, name="site_delete"),
    path("about-you/", therapist.therapist, name="therapist"),
    path("library/", library.library, name="library"),
    path("library/<str:id>/", library.library_activity, name="library_activity"),
    path("library/<str:id>/a5.pdf", library.library_activity_pdf, name="library_activity_pdf"),
]
