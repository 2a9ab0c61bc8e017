"""Addresses."""

from django.urls import path

from cuttlebone.web import views

urlpatterns = [
    path("", views.answer, name="answer"),
    path("favicon.ico", views.no_icon),
    path("style.css", views.style, name="style"),
    path("facts/", views.facts_search, name="facts"),
    path("facts/<str:kind>/<str:key>/", views.fact, name="fact"),
    path("sources/<str:key>/", views.source, name="source"),
]
handler404 = "cuttlebone.web.views.missing"
