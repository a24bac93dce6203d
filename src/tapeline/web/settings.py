"""Django's settings: one local profile, SQLite, nothing loaded from outside."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tapeline.web.data_folder import (
    data_folder,
    invented_database,
    looked_at_database,
    own_database,
    secret_key,
    staged_database,
)

HERE = Path(__file__).resolve().parent
DATA_FOLDER = data_folder()

DEBUG = False
SECRET_KEY = secret_key(DATA_FOLDER)
ALLOWED_HOSTS = ["127.0.0.1", "localhost"]
ROOT_URLCONF = "tapeline.web.urls"
WSGI_APPLICATION = None
INSTALLED_APPS = [
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django_htmx",
    "tapeline.web.records",
]
MIDDLEWARE = [
    "tapeline.web.middleware.headers.SafeHeaders",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.middleware.common.CommonMiddleware",
    "tapeline.web.middleware.rescue.OnlyRestore",
    "tapeline.web.middleware.caseload.ChooseCaseload",
    "django.middleware.csrf.CsrfViewMiddleware",
    "tapeline.web.middleware.looking.OnlyLook",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "tapeline.web.middleware.faults.CalmFaults",
]
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [HERE / "templates"],
        "APP_DIRS": False,
        "OPTIONS": {
            "libraries": {"drawings": "tapeline.web.templatetags.drawings"},
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.messages.context_processors.messages",
                "tapeline.web.context.every_page",
            ],
            "loaders": [
                (
                    "django.template.loaders.cached.Loader",
                    ["django.template.loaders.filesystem.Loader"],
                )
            ],
        },
    }
]


def sqlite(path: Path, *, only_look: bool = False) -> dict[str, Any]:
    """A rollback journal and full synchronisation: one file, nothing lost at power loss.

    What is deleted is overwritten, so that it cannot be read out of the file afterwards.

    Not WAL: SQLite 3.7.0 to 3.51.2 can damage a database when it resets the log.
    With `only_look` SQLite itself refuses to write.
    """
    more = "; PRAGMA query_only=ON" if only_look else ""
    return {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": path,
        "CONN_MAX_AGE": 0,
        "OPTIONS": {
            "timeout": 10,
            "transaction_mode": "IMMEDIATE",
            "init_command": (
                "PRAGMA journal_mode=DELETE; PRAGMA synchronous=EXTRA; PRAGMA secure_delete=ON"
                + more
            ),
        },
    }


DATABASES = {
    "default": sqlite(own_database(DATA_FOLDER)),
    "invented": sqlite(invented_database(DATA_FOLDER)),
    "staged": sqlite(staged_database(DATA_FOLDER)),  # a backup that is being brought back
    "looked_at": sqlite(looked_at_database(DATA_FOLDER), only_look=True),  # one that is only read
}
DATABASE_ROUTERS = ["tapeline.web.records.which.OpenCaseload"]
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

STATIC_URL = "/static/"
STATICFILES_DIRS = [HERE / "static"]
STATICFILES_FINDERS = ["django.contrib.staticfiles.finders.FileSystemFinder"]
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = False
WHITENOISE_MAX_AGE = 60

MESSAGE_STORAGE = "django.contrib.messages.storage.cookie.CookieStorage"
CSRF_COOKIE_SAMESITE = "Strict"
CSRF_COOKIE_HTTPONLY = True
CSRF_FAILURE_VIEW = "tapeline.web.pages.faults.out_of_date"
X_FRAME_OPTIONS = "DENY"
DATA_UPLOAD_MAX_MEMORY_SIZE = 50 * 1024 * 1024
FILE_UPLOAD_MAX_MEMORY_SIZE = 50 * 1024 * 1024

LANGUAGE_CODE = "en"
LANGUAGES = [("en", "English")]
LOCALE_PATHS = [HERE / "locale"]
USE_I18N = True
# Dates are local and without a zone; moments of recording are UTC texts in the core.
# No TIME_ZONE, so that the computer's own clock says what day it is.
USE_TZ = False
TIME_ZONE = None

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"format": "%(asctime)s %(levelname)s %(name)s %(message)s"}},
    "handlers": {
        "file": {
            "class": "logging.handlers.RotatingFileHandler",
            "filename": DATA_FOLDER / "log.txt",
            "maxBytes": 500_000,
            "backupCount": 1,
            "encoding": "utf-8",
            "delay": True,
            "formatter": "line",
        },
        "none": {"class": "logging.NullHandler"},
    },
    # Django's own request log names page addresses and values; ours has numbers only.
    "loggers": {
        "django": {"handlers": ["none"], "propagate": False},
        "tapeline": {"handlers": ["file"], "level": "INFO", "propagate": False},
    },
}
