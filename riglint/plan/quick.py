"""The models made ready without pydantic's search for plug-ins, half the time of a cold start's first plan."""

import sys
from types import ModuleType

from pydantic import BaseModel

from riglint.plan.plan import Plan

_SEARCH = "pydantic.plugin._loader"


def make_ready(model: type[BaseModel] = Plan) -> None:
    """Build the models of a plan, or of another file, once.

    As pydantic builds its first model it reads the metadata of every installed package, to find plug-ins; plans
    want none. That search is a module of its own, so for the time of the build an empty one stands in for it.
    Should pydantic be put together differently one day, the models are built in its own way, only later.
    """
    if model.__pydantic_complete__:
        return
    if _SEARCH not in sys.modules:
        found_none = ModuleType(_SEARCH)
        found_none.get_plugins = tuple  # type: ignore[attr-defined]
        sys.modules[_SEARCH] = found_none
        try:
            model.model_rebuild()
        except ImportError:
            pass
        finally:
            del sys.modules[_SEARCH]
    model.model_rebuild()
