"""Every address of tapeline. Names are what templates use; addresses hold keys and dates."""

from __future__ import annotations

from django.urls import path

from tapeline.web.pages import start

urlpatterns = [
    path("", start.first_page, name="first_page"),
    path("start/", start.welcome, name="welcome"),
    path("invented/open/", start.open_demo, name="demo_open"),
    path("invented/leave/", start.leave_demo, name="demo_leave"),
    path("alive/", start.alive, name="alive"),
]

handler400 = "tapeline.web.pages.faults.bad_request"
handler403 = "tapeline.web.pages.faults.refused"
handler404 = "tapeline.web.pages.faults.not_here"
handler500 = "tapeline.web.pages.faults.our_fault"
