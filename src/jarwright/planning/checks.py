"""Which rules does a class break, besides those of its single stations? One door to all of them."""

from __future__ import annotations

from jarwright.model.document import ClassDocument
from jarwright.model.plan import Finding, Group, Load
from jarwright.planning.class_rules import class_findings, cooling_finding, packing_finding, small_load_findings
from jarwright.planning.kitchen_rules import burner_findings, circuit_findings
from jarwright.planning.method_rules import canner_findings
from jarwright.planning.work import ResolvedStation
from jarwright.reference.library import Reference


def check_class(
    document: ClassDocument, stations: tuple[ResolvedStation, ...], groups: tuple[Group, ...], reference: Reference
) -> tuple[Finding, ...]:
    """Return what is to be said before anything is placed: canners and burners left out, circuits, what the class needs."""
    return (
        *canner_findings(document, reference.rules),
        *burner_findings(document, reference.rules),
        *circuit_findings(document),
        *class_findings(document, stations, groups, reference.rules),
    )


def check_loads(document: ClassDocument, loads: tuple[Load, ...], reference: Reference) -> tuple[Finding, ...]:
    """Return what is to be said about the loads placed: small pressure loads, room to cool, canners too hot to pack."""
    total = sum(jars.count for load in loads for jars in load.jars)
    wholes = (cooling_finding(document, total), packing_finding(document, loads))
    return (*small_load_findings(document, loads, reference.rules), *(finding for finding in wholes if finding is not None))
