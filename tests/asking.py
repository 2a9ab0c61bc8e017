"""Ask one check of a household."""

from cuttlebone.base.finding import Finding, Severity
from cuttlebone.home.model import Household
from cuttlebone.home.view import Check, views
from tests.good_home import TODAY


def ask(check: Check, home: Household) -> list[Finding]:
    """All findings of one check."""
    return [finding for view in views(home, check.per, TODAY) for finding in check.findings(view)]


def severity(check: Check, home: Household) -> Severity:
    """The one severity a check gives of a household with one thing to judge."""
    (finding,) = ask(check, home)
    return finding.severity
