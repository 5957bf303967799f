"""A whole job: a document in, the report and its sheets out."""

from __future__ import annotations

import html
import json
from ctypes import c_size_t
from typing import Any, Dict, Mapping, Union

from ._library import LashworkError, call, text_of

__all__ = ("Document", "Report", "document_schema", "full_sheet", "job_sheet", "report", "run", "validate")

Document = Union[str, bytes, Mapping[str, Any]]
"""A document: JSON as text or bytes, or the dict it stands for."""


def encoded(document: Document) -> bytes:
    """A document as the library reads it."""
    if isinstance(document, bytes):
        return document
    return (document if isinstance(document, str) else json.dumps(document)).encode()


def _answer(name: str, document: Document) -> bytes:
    found = encoded(document)
    return text_of(name, found, c_size_t(len(found)))


def run(document: Document) -> bytes:
    """The answer to a document as bytes of JSON: a report, or all its problems."""
    return _answer("lw_run", document)


class Report(Dict[str, Any]):
    """A report: a dict of its fields, with the sheets that go with it. A notebook shows the sheet."""

    def __init__(self, fields: Mapping[str, Any], document: bytes) -> None:
        super().__init__(fields)
        self._document = document

    @property
    def sheet(self) -> str:
        """The job sheet of one page."""
        return job_sheet(self._document)

    @property
    def full_sheet(self) -> str:
        """The page and everything behind it."""
        return full_sheet(self._document)

    def _repr_html_(self) -> str:
        sheet, full = html.escape(self.sheet), html.escape(self.full_sheet)
        return f"<pre>{sheet}</pre><details><summary>everything behind it</summary><pre>{full}</pre></details>"


def report(document: Document) -> Report:
    """The report of a document; raises LashworkError with all `problems` of one that is refused.

    >>> report({"engine": {}})
    Traceback (most recent call last):
        ...
    lashwork._library.LashworkError: ...
    """
    found = encoded(document)
    answer = json.loads(run(found))
    if "report" in answer:
        return Report(answer["report"], found)
    try:
        validate(found)
    except LashworkError as refused:
        refused.problems = answer["problems"]
        raise
    raise AssertionError("a document was refused that is valid")


def job_sheet(document: Document) -> str:
    """The job sheet of one page; raises LashworkError with every problem of a refused document."""
    return _answer("lw_job_sheet", document).decode()


def full_sheet(document: Document) -> str:
    """The page and everything behind it; raises as job_sheet does."""
    return _answer("lw_full_sheet", document).decode()


def validate(document: Document) -> None:
    """Raises LashworkError with every problem if `run` would answer with problems."""
    found = encoded(document)
    call("lw_validate", found, c_size_t(len(found)))


def document_schema() -> Any:
    """The JSON schema of a document."""
    return json.loads(text_of("lw_document_schema"))
