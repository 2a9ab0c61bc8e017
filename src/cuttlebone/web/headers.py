"""Headers on every page."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

POLICY = "default-src 'none'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
"""No script at all, nothing from elsewhere. Styles are inline because the report is one self-contained file."""


def content_security(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """Send the policy with every answer, and let nothing be kept by caches."""

    def middleware(request: HttpRequest) -> HttpResponse:
        response = get_response(request)
        response["Content-Security-Policy"] = POLICY
        response["Cache-Control"] = "no-store"
        return response

    return middleware
