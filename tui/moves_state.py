"""A session in; what moving last week's starts gains, and where it stands, out."""

from typing import TYPE_CHECKING

from tui.field_state import once
from tui.session import Edit, Session

if TYPE_CHECKING:
    from scheduler.watering.night_plan.moves import MoveCurve, MovePoint


def curve_of(session: Session) -> "MoveCurve":
    """The curve of a session's week, under its what-ifs; nine searches a night."""
    from scheduler.field.package_wind import site_package_wind
    from scheduler.watering.night_plan.moves import MoveCurve, move_curve

    plan, history = session.plan, session.history
    if plan is None or history is None:
        return MoveCurve((), 0, "no week is planned")

    def work() -> MoveCurve:
        winds = site_package_wind(plan.site, history, plan.today)
        return move_curve(plan.site, history, plan.zones, winds=winds)

    # the worth of a move picks a point of the curve and does not bend it
    rest = tuple(one for one in session.week_edits if one.what != "move worth")
    return once(session.site_folder, ("moves", rest), work)


def stands_at(session: Session, curve: "MoveCurve") -> int:
    """The point that the week's worth of a move leads to."""
    plan = session.plan
    worth = plan.site.controller.move_worth if plan is not None else 0.0
    far = [abs(one.share - worth) for one in curve.points]
    return far.index(min(far)) if far else 0


def pick(point: "MovePoint") -> Edit:
    """The what-if that plans the week of a point."""
    return Edit("move worth", point.share)
