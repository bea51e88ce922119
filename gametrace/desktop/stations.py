"""The one table of stations, in the order meat moves. Each is imported when it is first shown."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module


@dataclass(frozen=True, slots=True)
class Entry:
    """A station's name, its word on the strip, where it lives and its key."""

    name: str
    word: str
    module: str
    class_name: str
    key: str = ""
    on_line: bool = False  # on the animal's way from field to plate


STATIONS = (
    Entry("delivery", "Delivery", "gametrace.desktop.delivery.view", "DeliveryStation", "F1", on_line=True),
    Entry("larder", "Larder", "gametrace.desktop.larder.view", "LarderStation", "F2", on_line=True),
    Entry("block", "Block", "gametrace.desktop.block.view", "BlockStation", "F3", on_line=True),
    Entry("pass", "Pass", "gametrace.desktop.pass_.view", "PassStation", "F4", on_line=True),
    Entry("trace", "Trace", "gametrace.desktop.trace.view", "TraceStation", "F5"),
    Entry("many", "Many lots", "gametrace.desktop.trace.many_view", "ManyStation"),
    Entry("bag", "No label", "gametrace.desktop.trace.bag_view", "BagStation"),
    Entry("recalls", "Recalls", "gametrace.desktop.trace.recall_view", "RecallStation"),
    Entry("drills", "Drills", "gametrace.desktop.trace.drill_view", "DrillStation"),
    Entry("visit", "Visit", "gametrace.desktop.visit.view", "VisitStation", "F6"),
    Entry("today", "Today", "gametrace.desktop.today.view", "TodayStation", "F7"),
    Entry("cold", "Cold stores", "gametrace.desktop.cold.view", "ColdStation"),
    Entry("bins", "By-products", "gametrace.desktop.cold.bins_view", "BinsStation"),
    Entry("expected", "Expected", "gametrace.desktop.expected.view", "ExpectedStation"),
    Entry("examination", "Examination", "gametrace.desktop.examination.view", "ExaminationStation"),
    Entry("guide", "Guide", "gametrace.desktop.guide.view", "GuideStation"),
    Entry("costs", "Costs and yields", "gametrace.desktop.costs.view", "CostsStation"),
    Entry("paper", "Paper", "gametrace.desktop.paper.view", "PaperStation"),
    Entry("setup", "Set-up", "gametrace.desktop.setup.view", "SetupStation"),
)

BY_NAME = {entry.name: entry for entry in STATIONS}
ON_STRIP = tuple(entry for entry in STATIONS if entry.key)


def station_class(name: str):
    """The class of a station, imported now."""
    entry = BY_NAME[name]
    return getattr(import_module(entry.module), entry.class_name)
