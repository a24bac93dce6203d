"""Every address of tapeline. Names are what templates use; addresses hold keys and dates."""

from __future__ import annotations

from django.urls import path

from tapeline.web.pages import (
    asking,
    beside,
    exchange,
    hers_addresses,
    keeping,
    know,
    moving,
    plan,
    record,
    run,
    start,
    week,
    wondering,
    write,
)

urlpatterns = [
    path("", start.first_page, name="first_page"),
    path("start/", start.welcome, name="welcome"),
    path("invented/open/", start.open_demo, name="demo_open"),
    path("invented/leave/", start.leave_demo, name="demo_leave"),
    path("alive/", start.alive, name="alive"),
    path("moves/<str:move>.svg", moving.move_loop, name="move_loop"),
    *hers_addresses.ADDRESSES,
    *know.ADDRESSES,
    *write.ADDRESSES,
    path("week/", week.week, name="week"),
    path("week/<str:on>/", week.week, name="week_on"),
    path("groups/<str:key>/<str:on>/", plan.session_plan, name="session_plan"),
    path("groups/<str:key>/<str:on>/ask/", asking.session_ask, name="session_ask"),
    path("groups/<str:key>/<str:on>/looking/", asking.session_looking, name="session_looking"),
    path("groups/<str:key>/<str:on>/beside/", beside.session_beside, name="session_beside"),
    path("groups/<str:key>/<str:on>/what-if/", wondering.session_what_if, name="session_what_if"),
    path("groups/<str:key>/<str:on>/call-off/", plan.session_call_off, name="session_call_off"),
    path("groups/<str:key>/<str:on>/packet.pdf", plan.session_packet, name="session_packet"),
    path("groups/<str:key>/<str:on>/run/", run.run, name="session_run"),
    path("groups/<str:key>/<str:on>/run/worker.js", run.run_worker, name="session_run_worker"),
    path("groups/<str:key>/<str:on>/run/presses/", run.run_presses, name="session_run_presses"),
    path("groups/<str:key>/<str:on>/run/again/", run.run_again, name="session_run_again"),
    path("groups/<str:key>/<str:on>/record/", record.record, name="session_record"),
    path(
        "groups/<str:key>/<str:on>/record/cut-short/",
        record.record_cut_short,
        name="record_cut_short",
    ),
    path("groups/<str:key>/<str:on>/record/correct/", record.record_correct, name="record_correct"),
    path("bring-in/", exchange.bring_in, name="bring_in"),
    path("bring-in/now/", exchange.bring_in_now, name="bring_in_now"),
    path("take-out/", exchange.take_out, name="take_out"),
    path("take-out/caseload.json", exchange.take_out_file, name="take_out_file"),
    *keeping.ADDRESSES,
]

handler400 = "tapeline.web.pages.faults.bad_request"
handler403 = "tapeline.web.pages.faults.refused"
handler404 = "tapeline.web.pages.faults.not_here"
handler500 = "tapeline.web.pages.faults.our_fault"
