"""Django settings. No database, no sessions: this face only reads one home file."""

import os
import secrets

SECRET_KEY = secrets.token_urlsafe(50)  # nothing is signed across restarts
DEBUG = False
ALLOWED_HOSTS = ["127.0.0.1", "localhost", "[::1]"]
ROOT_URLCONF = "cuttlebone.web.urls"
INSTALLED_APPS = ["cuttlebone.web"]
MIDDLEWARE = ["django.middleware.security.SecurityMiddleware", "django.middleware.common.CommonMiddleware", "django.middleware.clickjacking.XFrameOptionsMiddleware",
              "cuttlebone.web.headers.content_security"]  # fmt: skip
TEMPLATES = [{"BACKEND": "django.template.backends.django.DjangoTemplates", "APP_DIRS": True}]
USE_TZ = True
TIME_ZONE = "UTC"
LANGUAGE_CODE = "en"
X_FRAME_OPTIONS = "DENY"
SECURE_REFERRER_POLICY = "no-referrer"
DATABASES: dict[str, object] = {}
HOME_FILE = os.environ.get("CUTTLEBONE_HOME_FILE", "")
