"""Pieces of a child's record: home, groups, starting steps, goals."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from django.http import Http404, HttpRequest, HttpResponse
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from tapeline.caseload.history import PromptLevel
from tapeline.caseload.people import Child, Goal
from tapeline.web.forms.base import saved
from tapeline.web.forms.children import NEW_HOME, ChildHomeForm, JoinGroupForm, SkillsForm
from tapeline.web.forms.goals import GoalForm, goal_typed, wording_in_words
from tapeline.web.pages.answers import asks_first, done, found_or_404, page, typed_into
from tapeline.web.records.convert.whole import prompt_lists_from_rows
from tapeline.web.selectors.groups import groups_list
from tapeline.web.selectors.library import library_now
from tapeline.web.selectors.people import child_of, homes_list
from tapeline.web.services.keys import new_id
from tapeline.web.services.know import child_move_in, child_move_in_anew
from tapeline.web.services.people import child_save
from tapeline.web.services.places import member_add
from tapeline.web.today import today


@require_http_methods(["GET", "POST"])
def child_home(request: HttpRequest, key: str) -> HttpResponse:
    """Choose a home that is on file, make a new one in place, or none."""
    one = found_or_404(child_of, key)
    form = ChildHomeForm(typed_into(request), homes=homes_list(), initial={"home": one.home or ""})
    made = []

    def save(typed: dict[str, str]) -> None:
        if typed["home"] == NEW_HOME:
            made.append(child_move_in_anew(child_key=key, home_name=typed["new_name"]))
        else:
            child_move_in(child_key=key, home_key=typed["home"] or None)

    if request.method == "POST" and saved(form, save):
        if made:
            said = _("The home is on file. Say what it is like.")
            return done(request, said, "home", made[0].id)
        return done(request, _("Saved: the home of %(name)s.") % {"name": one.name}, "child", key)
    context = {"form": form, "child": one, "new_home": NEW_HOME}
    return page(request, "children/home.html", context, has_faults=bool(form.errors))


@require_POST
def child_join(request: HttpRequest, key: str) -> HttpResponse:
    """Bring a child into a group, from today on."""
    one = found_or_404(child_of, key)
    form = JoinGroupForm(request.POST, groups=groups_list())

    def save(typed: dict[str, str]) -> None:
        member_add(
            group_key=typed["group"],
            child_key=key,
            place=typed["place"],  # type: ignore[arg-type]
            starts=today(),
        )

    if saved(form, save):
        return done(request, _("%(name)s is in the group.") % {"name": one.name}, "child", key)
    return page(request, "children/join.html", {"form": form, "child": one}, has_faults=True)


@require_http_methods(["GET", "POST"])
def child_skills(request: HttpRequest, key: str) -> HttpResponse:
    """A starting step for each skill she wants to work on."""
    one = found_or_404(child_of, key)
    first = {start.skill: start.step for start in one.skills}
    form = SkillsForm(typed_into(request), library=library_now(), initial=first)
    if request.method == "POST" and saved(
        form,
        lambda _typed: child_save(child=replace(one, skills=form.starts(one.skills))),
    ):
        said = _("Saved: where %(name)s starts.") % {"name": one.name}
        return done(request, said, "child", key)
    context = {"form": form, "child": one}
    return page(request, "children/skills.html", context, has_faults=bool(form.errors))


@require_http_methods(["GET", "POST"])
def goal_new(request: HttpRequest, key: str) -> HttpResponse:
    """A new goal."""
    return _goal_page(request, found_or_404(child_of, key), None)


@require_http_methods(["GET", "POST"])
def goal(request: HttpRequest, key: str, goal_id: str) -> HttpResponse:
    """Change a goal, or take it out."""
    one = found_or_404(child_of, key)
    kept = next((goal for goal in one.goals if goal.id == goal_id), None)
    if kept is None:
        raise Http404(f"There is no goal {goal_id!r}.")
    if request.method == "POST" and "take_out" in request.POST:
        asked = asks_first(
            request,
            question=_("Take out “%(name)s”?") % {"name": kept.name},
            explained=_("Its words, count and baseline go. What was recorded for the skill stays."),
            back=reverse("goal", args=(key, goal_id)),
        )
        if asked is not None:
            return asked
        rest = tuple(goal for goal in one.goals if goal.id != goal_id)
        child_save(child=replace(one, goals=rest))
        return done(request, _("Taken out: %(name)s.") % {"name": kept.name}, "child", key)
    return _goal_page(request, one, kept)


def _goal_page(request: HttpRequest, child: Child, kept: Goal | None) -> HttpResponse:
    form = GoalForm(
        typed_into(request),
        library=library_now(),
        levels=_levels_for(kept),
        initial=goal_typed(kept),
    )

    def save(_typed: dict[str, object]) -> None:
        made = form.goal(kept.id if kept else new_id("g"))
        child_save(child=replace(child, goals=_with(child.goals, made)))

    is_look = request.method == "POST" and "look" in request.POST
    wording = wording_in_words(kept, today()) if kept is not None else None
    if is_look:
        wording = form.wording(today())
    elif request.method == "POST" and saved(form, save):
        said = _("Saved: %(name)s.") % {"name": form.cleaned_data["name"]}
        return done(request, said, "child", child.id)
    shown = form.as_typed() if is_look else form
    context = {"form": shown, "child": child, "goal": kept, "wording": wording}
    return page(request, "children/goal.html", context, has_faults=bool(shown.errors))


def _with(goals: Iterable[Goal], made: Goal) -> tuple[Goal, ...]:
    """The goals with one changed where it stands, or added at the end."""
    old = list(goals)
    places = [place for place, goal in enumerate(old) if goal.id == made.id]
    if places:
        old[places[0]] = made
    else:
        old.append(made)
    return tuple(old)


def _levels_for(kept: Goal | None) -> list[PromptLevel]:
    """Prompt levels in use, and hidden ones that this goal names."""
    named = {kept.help_at_most} if kept else set()
    if kept and kept.baseline:
        named.add(kept.baseline.help)
    levels = prompt_lists_from_rows()[-1].levels
    return [level for level in levels if not level.hidden or level.id in named]
