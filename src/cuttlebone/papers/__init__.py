"""The answer on paper: a page, text for a terminal, and data for other programs."""

from cuttlebone.papers.document import answer_document, answer_schema
from cuttlebone.papers.report import report_html
from cuttlebone.papers.text import answer_text, why_text

__all__ = ["answer_document", "answer_schema", "answer_text", "report_html", "why_text"]
