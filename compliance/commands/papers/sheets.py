"""The command `sheets`."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer

from compliance.commands.common.paper_writing import Force, Output, default_path, write_paper
from compliance.commands.common.shared import Folder, checked_folder


class TopicName(StrEnum):
    """The topics of field sheets, here too so that --help need not load them."""

    soils = "soils"
    jars = "jars"
    trials = "trials"
    batches = "batches"
    bars = "bars"
    specimens = "specimens"


def sheets(
    folder: Folder,
    only: Annotated[list[TopicName] | None, typer.Option(help="This topic only; may be repeated.")] = None,
    output: Output = None,
    force: Force = False,
) -> None:
    """Writes blank records to print for a workday, one topic a page: soils, jars, trial bricks, batches, specimens.

    Example: earthwall sheets my_house --only jars
    """
    checked = checked_folder(folder)
    from compliance.documents.sheets.field_sheets import TOPICS, write_field_sheets

    wanted = [one.value for one in only] if only else TOPICS
    topics = [one for one in TOPICS if one in wanted]
    target = output or default_path(folder, "field-sheets")
    write_paper(checked, target, lambda made, path: write_field_sheets(made, path, topics), force)
