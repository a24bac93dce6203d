"""Addresses of a room's drawing, and of a course tried in it."""

from __future__ import annotations

from django.urls import path

from tapeline.web.pages import room_course, room_walls, rooms

ADDRESSES = [
    path("sites/<str:key>/rooms/<str:room_key>/plan/", rooms.room_plan, name="room_plan"),
    path("sites/<str:key>/rooms/<str:room_key>/walls/", room_walls.room_walls, name="room_walls"),
    path(
        "sites/<str:key>/rooms/<str:room_key>/course/",
        room_course.room_course,
        name="room_course",
    ),
    path(
        "sites/<str:key>/rooms/<str:room_key>/course.pdf",
        room_course.room_course_paper,
        name="room_course_paper",
    ),
]
